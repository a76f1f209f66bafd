import { describe, expect, it } from 'vitest';
import type { Counts } from '../../../src/words/reading/counts.js';
import { type Formula, yardstickFor } from '../../../src/words/reading/formulas.js';

const formula = (language: string, name: string): Formula => {
  const found = yardstickFor(language)?.formulas.find((one) => one.name.startsWith(name));
  if (!found) throw new Error(`No formula ${name}.`);
  return found;
};

/** Counts of a text by its averages. */
const text = (wordsInSentence: number, syllablesInWord: number): Counts => ({
  sentences: 1000,
  words: 1000 * wordsInSentence,
  syllables: 1000 * wordsInSentence * syllablesInWord,
  longWords: 0,
});

describe('Flesch-Kincaid', () => {
  const { of } = formula('en', 'Flesch-Kincaid');

  it('gives -1.3 at 5.7 words a sentence and 1.02 syllables a word (published for Green Eggs and Ham)', () => {
    expect(of(text(5.7, 1.02))).toBeCloseTo(-1.3, 1);
  });

  it('gives 13.08 for a sentence of 13 words and 26 syllables (the example of the package)', () => {
    expect(of({ sentences: 1, words: 13, syllables: 26, longWords: 0 })).toBeCloseTo(13.08, 6);
  });
});

describe('SMOG', () => {
  const { of } = formula('en', 'SMOG');
  const grade = (longWords: number, sentences = 30) =>
    of({ sentences, words: 300, syllables: 450, longWords });

  // Conversion chart of the score sheet of the Prevention Research Center, University of South Carolina (2008).
  it.each([
    [7, 12, 6],
    [13, 20, 7],
    [21, 30, 8],
    [31, 42, 9],
    [43, 56, 10],
    [57, 72, 11],
    [73, 90, 12],
    [91, 110, 13],
  ])('keeps to the chart: %i to %i long words in 30 sentences are grade %i', (from, to, chart) => {
    // The chart takes the nearest square root and adds three, to 1.5 grades; the formula lies a little above it.
    expect(Math.abs(grade((from + to) / 2) - chart)).toBeLessThan(0.75);
  });

  it('takes a text of other length for 30 sentences: 30 long words in 22 sentences count as 41', () => {
    expect(grade(30, 22)).toBeCloseTo(grade(41), 1);
  });
});

describe('Fernández Huerta', () => {
  const { of } = formula('es', 'Fernández');

  // Figures of the tests of the Python package textstat (tests/backend/metrics), by its averages.
  it.each([
    [5, 1.4, 117.74],
    [10.6, 1.3585, 114.519],
  ])('at %f words a sentence and %f syllables a word gives %f', (words, syllables, score) => {
    expect(of(text(words, syllables))).toBeCloseTo(score, 1);
  });

  it('falls as sentences grow (the sign that Law mended)', () => {
    expect(of(text(20, 2))).toBeLessThan(of(text(10, 2)));
  });
});

describe('Crawford', () => {
  const { of } = formula('es', 'Crawford');

  // Figures of the tests of the Python package textstat (tests/backend/metrics), by its averages.
  it.each([
    [9, 1.374, 1.047],
    [21.882, 1.395, 2.492],
    [10.6, 1.358, 1.316],
  ])('at %f words a sentence and %f syllables a word gives grade %f', (words, syllables, grade) => {
    expect(of(text(words, syllables))).toBeCloseTo(grade, 1);
  });
});

it('has no yardstick for a language that no formula here was made for', () => {
  expect(yardstickFor('fr')).toBeNull();
});
