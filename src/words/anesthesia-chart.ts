import {
  anesthesiaChart,
  CHART_ROWS,
  type ChartKnown,
  type ChartWords,
  NOTHING_KNOWN,
} from '../draw/anesthesia-chart.js';
import type { CaseFacts } from '../facts/case-facts.js';
import type { Block, Handout } from './handout.js';
import type { Language } from './language.js';
import { amount, decimals } from './numbers.js';

type Paper = Handout['paper'];

/**
 * Width and height of the chart, mm, that leave a page for itself on each paper: what title, caption and the foot of the
 * page take is measured, not reckoned (the tests count the pages). Not clinical numbers.
 */
const SIZES: Readonly<Record<Paper, { width: number; plain: number; draft: number }>> = {
  A4: { width: 182, plain: 238, draft: 228 },
  Letter: { width: 187.9, plain: 222, draft: 211 },
};

/** An anesthesia chart with nothing filled in, for the clinic to print and to keep at hand. */
export function emptyChart(language: Language, paper: Paper): Handout {
  const { library } = language;
  return {
    ...common(language, paper),
    lead: library.text('chart.lead'),
    draft: null,
    foot: library.text('chart.foot'),
    dated: null,
    blocks: [chartBlock(language, paper, NOTHING_KNOWN, false)],
  };
}

/**
 * The chart with what the record knows of the patient filled in.
 * @param approved whether a veterinarian has approved these facts; else the chart bears the draft mark
 */
export function filledChart(facts: CaseFacts, language: Language, approved: boolean): Handout {
  const { library, learner, trade, procedures } = language;
  const { identity, patient, surgery, anesthesia } = facts;
  const { paper } = identity.clinic;
  const species = trade.text(`species.${patient.species.value}.learner`);
  const weight = decimals(patient.weight.value, 2);
  const sex = `${patient.sex.value}${patient.neutered.value ? ' neutered' : ''}`;
  const known: ChartKnown = {
    fields: {
      name: identity.patientName,
      species: `${species}, ${patient.breed.value}`,
      age: trade.text(`sex.${sex}.learner`),
      weight,
      record: identity.record,
      procedure: procedures.text(`${surgery.procedure.value}.learner.name`),
      surgeon: identity.surgeon,
      ...(identity.anesthetist !== null && { anesthetist: identity.anesthetist }),
      date: surgery.date.value.slice(0, 10),
    },
    drugs: anesthesia.drugs.map(({ drug, amount: given, route, minute }) => ({
      minute: decimals(minute, 0),
      given: `${drug} ${amount(given.value, given.unit)} ${given.unit}, ${trade.text(`clinic routes.${route}.learner`)}`,
    })),
  };
  return {
    ...common(language, paper),
    lead: library.text('chart.filledLead', {
      patient: identity.patientName,
      species,
      weight,
      record: identity.record,
    }),
    draft: approved ? null : learner.text('draft'),
    foot: library.text('chart.filledFoot', { record: identity.record }),
    dated: surgery.date.value,
    blocks: [chartBlock(language, paper, known, !approved)],
  };
}

const common = ({ tag, library }: Language, paper: Paper) => ({
  reader: 'learner' as const,
  language: tag,
  paper,
  title: library.text('chart.title'),
  sender: [],
});

function chartBlock(language: Language, paper: Paper, known: ChartKnown, draft: boolean): Block {
  const { library } = language;
  const words = chartWords(language);
  const { width, plain, draft: marked } = SIZES[paper];
  const values = [...Object.values(known.fields), ...known.drugs.map(({ given }) => given)];
  return {
    kind: 'figure',
    name: 'anesthesia-chart',
    figure: {
      kind: 'drawing',
      drawing: anesthesiaChart(words, { width, height: draft ? marked : plain }, known),
    },
    caption: library.say('chart.caption'),
    alternative: [
      library.text('chart.alternative', {
        rows: CHART_ROWS.map((row) => words.rows[row]).join(', '),
      }),
      ...(values.length === 0
        ? []
        : [library.text('chart.filledIn', { values: values.join('; ') })]),
    ].join(' '),
  };
}

function chartWords({ library }: Language): ChartWords {
  const say = (key: string) => library.text(`chart.${key}`);
  const group = <K extends string>(name: string, keys: readonly K[]) =>
    Object.fromEntries(keys.map((key) => [key, say(`${name}.${key}`)])) as Record<K, string>;
  return {
    fields: group('fields', [
      ...(['name', 'species', 'age', 'weight', 'record'] as const),
      ...(['procedure', 'surgeon', 'anesthetist', 'date', 'sheet'] as const),
    ]),
    rows: group('rows', CHART_ROWS),
    totals: group('totals', [
      ...(['induction', 'incision', 'end', 'extubation'] as const),
      ...(['fluidsIn', 'bloodLost', 'urine', 'signed'] as const),
    ]),
    minute: say('minute'),
    clock: say('clock'),
    trend: say('trend'),
    heart: say('heart'),
    pressure: say('pressure'),
    at: say('at'),
    drug: say('drug'),
    by: say('by'),
    event: say('event'),
    more: (count) => library.text('chart.more', { count }),
  };
}
