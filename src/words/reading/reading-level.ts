import { type Counts, countsOf } from './counts.js';
import { type Formula, type Yardstick, yardstickFor } from './formulas.js';
import type { Sentence } from './sentences.js';
import { withoutFigures } from './spoken.js';

/** One formula's word on a text. */
export interface Measure {
  readonly name: string;
  /** To one decimal. */
  readonly value: number;
  /** What is held against the limit: a grade is whole. */
  readonly judged: number;
  readonly limit: number;
  /** Which side of the limit is fit for the reader. */
  readonly fit: 'or below' | 'or above';
  readonly fits: boolean;
}

/** How hard a sheet is to read, by each formula of its language, with the sentences that are too hard. */
export interface ReadingLevel {
  readonly counts: Counts;
  readonly measures: readonly Measure[];
  /** What makes a text that does not fit hard: its hardest sentences by the formulas that it fails, the hardest first. */
  readonly hardest: readonly Sentence[];
}

/** As many sentences are named at once; mending them may be enough. Not a clinical number. */
const MOST_NAMED = 5;

/** How hard prose is for its reader; null in a language that no formula here was made for, and where there is no prose. */
export function readingLevel(
  sentences: readonly Sentence[],
  language: string,
): ReadingLevel | null {
  const yardstick = yardstickFor(language);
  if (!yardstick || sentences.length === 0) return null;
  const counts = countsOf(sentences, yardstick.voice);
  const failed = yardstick.formulas.filter((formula) => !measured(formula, counts).fits);
  return {
    counts,
    measures: yardstick.formulas.map((formula) => measured(formula, counts)),
    hardest: [...new Set(failed.flatMap((formula) => hardestBy(formula, sentences, yardstick)))],
  };
}

function measured(formula: Formula, counts: Counts): Measure {
  const { name, limit, harder, isGrade } = formula;
  const exact = formula.of(counts);
  const judged = isGrade ? Math.round(exact) : exact;
  const value = Math.round(exact * 10) / 10;
  return {
    ...{ name, limit, value },
    judged: isGrade ? judged : value,
    fit: harder === 'higher' ? 'or below' : 'or above',
    fits: harder === 'higher' ? judged <= limit : judged >= limit,
  };
}

function hardestBy(
  formula: Formula,
  sentences: readonly Sentence[],
  { voice }: Yardstick,
): Sentence[] {
  // Doses, dates and hours cannot be said in shorter words: they count for the sheet, but no sentence is blamed for them.
  const hardness = (sentence: Sentence) =>
    formula.of(countsOf([withoutFigures(sentence, voice)], voice)) *
    (formula.harder === 'higher' ? 1 : -1);
  return sentences
    .map((sentence) => ({ sentence, value: hardness(sentence) }))
    .filter(({ value }) => value > formula.limit * (formula.harder === 'higher' ? 1 : -1))
    .sort((a, b) => b.value - a.value)
    .slice(0, MOST_NAMED)
    .map(({ sentence }) => sentence);
}
