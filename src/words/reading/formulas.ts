import { fleschKincaid } from 'flesch-kincaid';
import { toCardinal as englishNumber } from 'n2words/en-US';
import { toCardinal as spanishNumber } from 'n2words/es-US';
import { smogFormula } from 'smog-formula';
import { syllable } from 'syllable';
import type { Counts } from './counts.js';
import { spanishSyllables } from './spanish-syllables.js';
import type { Voice } from './spoken.js';

/** A readability formula with the value up to which a text is fit for a reader of the sixth grade. */
export interface Formula {
  readonly name: string;
  readonly of: (counts: Counts) => number;
  readonly limit: number;
  /** Whether the value is a school grade, which is a whole number. */
  readonly isGrade: boolean;
  /** Whether a higher value means a harder text. */
  readonly harder: 'higher' | 'lower';
}

/** How hard texts of a language are judged to be. */
export interface Yardstick {
  readonly voice: Voice;
  readonly formulas: readonly Formula[];
}

/**
 * Grade six, as advised for patients' texts (AMA and NIH advice, from memory, unverified). Grades are whole: 6.4 is grade
 * six and 6.5 is not. (The SMOG chart still calls 6.7 grade six.)
 */
const SIXTH_GRADE = 6;

/**
 * Kincaid, Fishburne, Rogers and Chissom 1975: grade = 0.39 words/sentence + 11.8 syllables/word - 15.59. McLaughlin
 * 1969 (SMOG): grade = 1.043 √(30 long words/sentence) + 3.1291; made for health texts to be understood in full.
 */
const ENGLISH: Yardstick = {
  voice: {
    syllables: syllable,
    number: (value) => englishNumber(value),
    shortForms: {
      ...{ mL: 'milliliters', mg: 'milligrams', mm: 'millimeters', kg: 'kilograms' },
      ...{ am: 'a em', pm: 'pea em', '½': 'half', '¼': 'quarter', '¾': 'three quarters' },
    },
  },
  formulas: [
    {
      name: 'Flesch-Kincaid grade',
      of: ({ words, sentences, syllables }) =>
        fleschKincaid({ word: words, sentence: sentences, syllable: syllables }),
      limit: SIXTH_GRADE,
      isGrade: true,
      harder: 'higher',
    },
    {
      name: 'SMOG grade',
      of: ({ sentences, longWords }) =>
        smogFormula({ sentence: sentences, polysillabicWord: longWords }),
      limit: SIXTH_GRADE,
      isGrade: true,
      harder: 'higher',
    },
  ],
};

/**
 * Fernández Huerta 1959, in the form that Law mended (LINGUIST List 22.2332, 2011): 206.84 - 60 syllables/word - 1.02
 * words/sentence; 70 to 80 is grade six. Crawford 1989: grade = -0.205 sentences + 0.049 syllables - 3.407, both in 100
 * words; made from primary-school books and valid up to grade six.
 */
const SPANISH: Yardstick = {
  voice: {
    syllables: spanishSyllables,
    number: (value) => spanishNumber(value),
    shortForms: {
      ...{ mL: 'mililitros', mg: 'miligramos', mm: 'milímetros', kg: 'kilogramos' },
      ...{ m: 'eme', p: 'pe', '½': 'medio', '¼': 'cuarto', '¾': 'tres cuartos' },
    },
  },
  formulas: [
    {
      name: 'Fernández Huerta',
      of: ({ words, sentences, syllables }) =>
        206.84 - 60 * (syllables / words) - 1.02 * (words / sentences),
      limit: 70,
      isGrade: false,
      harder: 'lower',
    },
    {
      name: 'Crawford grade',
      of: ({ words, sentences, syllables }) =>
        -0.205 * ((100 * sentences) / words) + 0.049 * ((100 * syllables) / words) - 3.407,
      limit: SIXTH_GRADE,
      isGrade: true,
      harder: 'higher',
    },
  ],
};

const YARDSTICKS: Readonly<Record<string, Yardstick>> = { en: ENGLISH, es: SPANISH };

/** Null for a language that no formula here was made for. */
export const yardstickFor = (language: string): Yardstick | null => YARDSTICKS[language] ?? null;
