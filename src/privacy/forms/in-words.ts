import { DIGIT_WORD, NUMBER_WORDS } from '../number-words.js';
import { apart, type Form } from './form.js';

const WEIGHT = 'kilos?|kilograms?|kilogramos?|kgs?|pounds?|lbs?|libras?';
const AGE = 'years?|months?|weeks?|años?|mes(?:es)?|semanas?';
const OLD = '(?:old|of age|de edad)';

/** What digits would show at once, and words hide from a search for digits. */
export const OF_WORDS: readonly Form[] = [
  ['a weight in words', apart(`(?:${NUMBER_WORDS})[\\s-]+(?:${WEIGHT})`, 'giu')],
  ['an age in words', apart(`(?:${NUMBER_WORDS})[\\s-]+(?:${AGE})[\\s-]+${OLD}`, 'giu')],
  [
    // "was eight and a half" of no unit is an age; "two and a half hours" is none.
    'an age in words',
    apart(
      `(?:was|is|aged?|turned|tiene|tenía|cumplió)\\s+(?:${NUMBER_WORDS})(?<=half|quarter|medi[oa])(?!\\s+\\p{L})`,
      'giu',
    ),
  ],
  ['an age in words', apart(`(?:aged|turned|cumplió)\\s+(?:${NUMBER_WORDS})(?!\\s+\\p{L})`, 'giu')],
  [
    'the end of a number',
    apart(
      `(?:chip|number|número|microchip|phone|teléfono)\\s+(?:\\p{L}+\\s+)?(?:ends?|ending|finish(?:es|ing)?|termina(?:do)?|acaba(?:do)?)\\s+(?:in|with|on|en|por|con)\\s+(?:\\d|${NUMBER_WORDS})[\\p{L}\\d -]*`,
      'giu',
    ),
  ],
  ['the digits of a number in words', apart(`${DIGIT_WORD}(?:[\\s-]+${DIGIT_WORD}){2,}`, 'giu')],
];
