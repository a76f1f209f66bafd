import type { ChannelFacts } from '../../facts/case-facts.js';
import { roundTo } from '../../units/round.js';
import { AFTER_DEATH, apartSpans, BY_VENTILATOR, type Reading } from '../../vitals/channel.js';
import { readingsTable, type ShownReading } from '../../vitals/table-rows.js';
import type { Block, Cell, Said } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { aligned, decimals } from '../numbers.js';
import type { LearnerSection } from './learner-section.js';

/** The chart, and what on it does not describe the patient. */
export const vitalsPart: LearnerSection = ({ vitals }, language, figures) => {
  const { learner } = language;
  if (!figures.vitals) {
    return [
      { kind: 'heading', level: 2, text: learner.text('vitals.title') },
      { kind: 'paragraph', said: learner.say('vitals.empty') },
    ];
  }
  return [
    { kind: 'heading', level: 2, text: learner.text('vitals.title') },
    {
      kind: 'figure',
      name: 'vitals',
      figure: figures.vitals,
      caption: learner.say('vitals.figure', {
        low: (vitals.lowPressure.value?.episodes.length ?? 0) > 0 ? 'some' : 'none',
        apart: hasApart(vitals.channels) ? 'some' : 'none',
      }),
      alternative: learner.text('vitals.alternative', {
        summary: summary(vitals.channels, language),
      }),
    },
    ...apart(vitals.channels, language),
    ...estimated(vitals.channels, language),
  ];
};

/** That means were computed, of a monitor that gave none or not all of them. */
const estimated = (channels: readonly ChannelFacts[], { learner }: Language): Block[] =>
  channels.flatMap(({ patient }, index): Block[] => {
    const computed = patient.filter(isComputed).length;
    const read = patient.length - computed;
    const said = () =>
      learner.say('vitals.computed', { read, computed }, `vitals.channels.${index}`);
    return computed === 0 ? [] : [{ kind: 'paragraph', said: said() }];
  });

const isComputed = ({ computed }: Reading): boolean => computed === true;

/** What the readings were, in one sentence a channel: the chart for those who cannot see it. */
function summary(channels: readonly ChannelFacts[], { learner, trade }: Language): string {
  return channels
    .flatMap(({ channel, unit, spread }) =>
      spread.value === null
        ? []
        : [
            learner.text('vitals.summary', {
              channel: trade.text(`channels.${channel}.learner`),
              lowest: decimals(spread.value.lowest.value, 1),
              highest: decimals(spread.value.highest.value, 1),
              median: decimals(spread.value.median, 1),
              unit: shownUnit(unit),
            }),
          ],
    )
    .join('; ');
}

/** What does not describe the patient, and why: in one sentence where channels have it in common. */
function apart(channels: readonly ChannelFacts[], { learner, trade, tag }: Language): Block[] {
  const spans = channels.flatMap((channel, index) =>
    apartSpans(channel).map(({ from, to, why }) => ({
      name: trade.text(`channels.${channel.channel}.learner`),
      fact: `vitals.channels.${index}.apart`,
      when: {
        from: decimals(from, 0),
        to: decimals(to, 0),
        during: from === to ? 'minute' : 'minutes',
        why: whyApart(why, learner),
      },
    })),
  );
  const common = new Map(spans.map(({ when }) => [JSON.stringify(when), when]));
  return [...common].map(([key, when]) => {
    const those = spans.filter((span) => JSON.stringify(span.when) === key);
    const names = new Intl.ListFormat(tag).format(those.map(({ name }) => name));
    return {
      kind: 'paragraph',
      said: learner.say(
        'vitals.apart',
        { channels: names, ...when },
        ...those.map(({ fact }) => fact),
      ),
    };
  });
}

/** The table behind the chart, folded away on a page. */
export const readingsFold: LearnerSection = (facts, language, figures) => {
  const { step, rows } = readingsTable(facts.vitals.channels);
  if (rows.length === 0) return [];
  return [
    {
      kind: 'fold',
      title:
        step === null
          ? language.learner.text('vitals.readings')
          : language.learner.text('vitals.someReadings', { step }),
      blocks: readingsPart(facts, language, figures),
    },
  ];
};

/** The readings by minute; a reading that is not the patient's stands in brackets. */
export const readingsPart: LearnerSection = ({ vitals }, { learner, trade }) => {
  const { channels } = vitals;
  const { step, rows } = readingsTable(channels);
  if (rows.length === 0) return [];
  const places = channels.map(placesOf);
  const count = Math.max(0, ...channels.map((channel) => allOf(channel).length));
  return [
    {
      kind: 'table',
      caption: learner.text('vitals.caption'),
      columns: [
        { title: learner.text('vitals.minute'), align: 'end', share: 10 },
        ...channels.map(({ channel, unit }) => ({
          title: `${trade.text(`channels.${channel}.short`)}, ${shownUnit(unit)}`,
          align: 'end' as const,
          share: 10,
        })),
      ],
      rows: rows.map(({ minute, readings }): Cell[] => [
        { kind: 'said', said: [plain(decimals(minute, 0))] },
        ...readings.map(
          (reading, index): Cell => ({
            kind: 'said',
            said: [said(reading, places[index] ?? 0, `vitals.channels.${index}`)],
          }),
        ),
      ]),
    },
    ...(step === null
      ? []
      : [{ kind: 'paragraph' as const, said: learner.say('vitals.nearest', { step, count }) }]),
    ...(hasApart(channels)
      ? [{ kind: 'paragraph' as const, said: learner.say('vitals.brackets') }]
      : []),
    ...(channels.some(({ patient }) => patient.some(isComputed))
      ? [{ kind: 'paragraph' as const, said: learner.say('vitals.asterisk') }]
      : []),
  ];
};

const hasApart = (channels: readonly ChannelFacts[]): boolean =>
  channels.some(({ apart: off }) => off.length > 0);

const allOf = ({ patient, apart: off }: ChannelFacts) => [...patient, ...off];

/** Decimals of a column: as many as its finest reading has, at most one. */
const placesOf = (channel: ChannelFacts): number =>
  allOf(channel).every(({ value }) => Number.isInteger(roundTo(value, 1))) ? 0 : 1;

function said(reading: ShownReading | null, places: number, fact: string): Said {
  if (reading === null) return plain('');
  const value = aligned(reading.value, places);
  if (reading.isComputed) return plain(`${value}*`, fact);
  return plain(reading.isPatients ? value : `(${value})`, fact);
}

export const shownUnit = (unit: string): string => (unit === 'C' ? '°C' : unit);

/** What the program itself says of readings that are not the patient's. */
const OWN_REASONS: Readonly<Record<string, string>> = {
  [BY_VENTILATOR]: 'vitals.byVentilator',
  [AFTER_DEATH]: 'vitals.afterDeath',
};

/** Why readings do not describe the patient: as the record says it, or the one rule in the reader's language. */
export function whyApart(why: string, learner: Language['learner']): string {
  const own = OWN_REASONS[why];
  return own === undefined ? why : learner.text(own);
}
