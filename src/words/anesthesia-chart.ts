import {
  anesthesiaChart,
  CHART_ROWS,
  type ChartKnown,
  type ChartWords,
} from '../draw/anesthesia-chart.js';
import type { CaseFacts } from '../facts/case-facts.js';
import type { Species } from '../record/vocabulary.js';
import { roundTo } from '../units/round.js';
import type { Block, Handout } from './handout.js';
import type { Language } from './language.js';
import { decimals } from './numbers.js';

type Paper = Handout['paper'];

/**
 * Width and height of the chart, mm, that leave a page for itself on each paper: what title, caption and the foot of the
 * page take is measured, not reckoned (the tests count the pages). Not clinical numbers.
 */
const SIZES: Readonly<Record<Paper, { width: number; plain: number; draft: number }>> = {
  A4: { width: 182, plain: 238, draft: 228 },
  Letter: { width: 187.9, plain: 222, draft: 211 },
};

/**
 * Levels of the trend, beats/min and mmHg, so that usual rates and a mean pressure of 60 lie within. Rates of dog and cat as
 * in `signal/rhythm/rate-ranges.ts`; a rabbit's up to some 325 and a ferret's to some 300 from memory, unverified.
 */
const LEVELS: Readonly<Record<Species, ChartKnown['levels']>> = {
  dog: [20, 60, 100, 140, 180, 220],
  cat: [20, 60, 100, 140, 180, 220, 260, 300],
  rabbit: [20, 60, 100, 140, 180, 220, 260, 300, 340],
  ferret: [20, 60, 100, 140, 180, 220, 260, 300, 340],
};

/** A chart that no patient is known for: every field stays open, and the trend has room for any species. */
const NOTHING_KNOWN: ChartKnown = { fields: {}, levels: LEVELS.rabbit };

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
 * The chart with what the record knows of patient and people filled in. Doses are left out: those of the record were given,
 * and on a sheet to be filled in they could be read as still to give.
 * @param approved whether a veterinarian has approved these facts; else the chart bears the draft mark
 */
export function filledChart(facts: CaseFacts, language: Language, approved: boolean): Handout {
  const { library, learner, trade, procedures } = language;
  const { identity, patient, surgery } = facts;
  const { paper } = identity.clinic;
  const species = trade.text(`species.${patient.species.value}.learner`);
  const weight = decimals(patient.weight.value, 2);
  const sex = `${patient.sex.value}${patient.neutered.value ? ' neutered' : ''}`;
  const known: ChartKnown = {
    fields: {
      name: identity.patientName,
      species: `${species}, ${patient.breed.value}`,
      age: library.text('chart.ageSex', {
        count: roundTo(patient.age.value.count, 1),
        unit: patient.age.value.unit,
        sex: trade.text(`sex.${sex}.learner`),
      }),
      weight,
      record: identity.record,
      procedure: procedures.text(`${surgery.procedure.value}.learner.name`),
      surgeon: identity.surgeon,
      ...(identity.anesthetist !== null && { anesthetist: identity.anesthetist }),
      date: surgery.date.value.slice(0, 10),
    },
    levels: LEVELS[patient.species.value],
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
  const values = Object.values(known.fields);
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
  };
}
