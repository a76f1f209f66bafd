import { type Measurements, TOLERANCE } from '../../signal/measures/measure.js';
import type { Measurement } from '../../signal/measures/measurement.js';
import type { Cell } from '../handout.js';
import type { Language } from '../language.js';
import { plain } from '../markdown.js';
import { aligned, decimals } from '../numbers.js';
import { type StripSection, titled } from './strip-section.js';

/** In the order in which a strip is read. */
const NAMES = [
  'pDuration',
  'pHeight',
  'pr',
  'qrs',
  'rHeight',
  'qt',
  'qtcFridericia',
  'qtcVanDeWater',
  'st',
  'tHeight',
  'tToR',
  'axis',
] as const satisfies readonly (keyof Measurements)[];

/** Decimals that a measure deserves; a share is told in per cent. */
const PLACES = { s: 3, mV: 2, 'share of R': 0, degrees: 0 } as const;

/** What was measured on the strip, beside the ranges for awake animals. */
export const intervalsPart: StripSection = (facts, language, _figures, index) => {
  const analysis = facts.strips[index]?.analysis;
  if (!analysis) return [];
  const { learner } = language;
  const over = (key: string) => titled(learner.text(key), facts, index, language);
  const fact = `strips.${index}.analysis.measures`;
  const measures = NAMES.map((name) => [name, analysis.measures[name]] as const);
  if (measures.every(([, { value }]) => value === null)) return [];
  const sources = [...new Set(measures.flatMap(([, { range }]) => (range ? [range.source] : [])))];
  return [
    { kind: 'heading', level: 3, text: over('measures.title') },
    {
      kind: 'table',
      caption: over('measures.caption'),
      columns: [
        { title: learner.text('measures.what'), align: 'start', share: 30 },
        { title: learner.text('measures.value'), align: 'end', share: 16 },
        { title: learner.text('measures.middle'), align: 'end', share: 22 },
        { title: learner.text('measures.range'), align: 'end', share: 20 },
        { title: learner.text('measures.verdict'), align: 'start', share: 14 },
      ],
      rows: measures.map(([name, measure]) => row(name, measure, `${fact}.${name}`, language)),
    },
    {
      kind: 'paragraph',
      said:
        sources.length === 0
          ? learner.say('measures.noSource', {}, fact)
          : learner.say('measures.awake', { source: sources.join('; ') }, fact),
    },
    ...(sources.length === 0
      ? []
      : [
          {
            kind: 'paragraph' as const,
            said: learner.say(
              'measures.tolerance',
              {
                seconds: decimals(TOLERANCE.s, 3),
                millivolts: decimals(TOLERANCE.mV, 2),
                percent: decimals(TOLERANCE['share of R'] * 100, 1),
                degrees: decimals(TOLERANCE.degrees, 1),
              },
              fact,
            ),
          },
        ]),
  ];
};

function row(name: string, measure: Measurement, fact: string, { learner }: Language): Cell[] {
  const cell = (text: string): Cell => ({ kind: 'said', said: [plain(text, fact)] });
  const label = cell(learner.text(`measures.names.${name}`));
  const { value, unit, middleHalf, because, range, verdict } = measure;
  if (value === null) {
    const why = because === null ? '' : learner.text(`measures.because.${because}`);
    return [label, cell(''), cell(why), cell(''), cell('')];
  }
  const shown = (x: number) => (unit === 'share of R' ? x * 100 : x);
  const number = (x: number) => aligned(shown(x), PLACES[unit]);
  // A published limit stands as it was published.
  const published = (x: number) => decimals(shown(x), PLACES[unit]);
  const withUnit = (text: string) => learner.text(`measures.units.${unit}`, { value: text });
  return [
    label,
    cell(withUnit(number(value))),
    cell(
      middleHalf === null
        ? ''
        : learner.text('measures.between', {
            low: number(middleHalf.from),
            high: withUnit(number(middleHalf.to)),
          }),
    ),
    cell(rangeText(range, published, learner)),
    cell(learner.text(`measures.verdicts.${verdict}`)),
  ];
}

function rangeText(
  range: Measurement['range'],
  number: (value: number) => string,
  learner: Language['learner'],
): string {
  if (range === null) return learner.text('measures.noRange');
  const { low, high } = range;
  if (low !== null && high !== null) {
    return learner.text('measures.between', { low: number(low), high: number(high) });
  }
  if (high !== null) return learner.text('measures.atMost', { high: number(high) });
  return low === null ? '' : learner.text('measures.atLeast', { low: number(low) });
}
