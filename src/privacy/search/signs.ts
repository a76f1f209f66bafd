// Choices of the method and codes of file formats: not clinical numbers.

import { FOLD, GAP, SEVERAL, UNSEEN } from './fold.js';

/** Letters in six bits, for tables: digits and plain letters as they are, others together. */
export const SIGN_BITS = 6;
/** In place of a sign: a character between words, one that is passed over, one of several letters. */
export const NO_SIGN = 0;
/** What a letter that prints nothing becomes. */
export const UNSEEN_SIGN = 62;
/** What a letter becomes that is folded to several. */
export const SEVERAL_SIGN = 63;

/** The sign of a letter in the tables of the search. */
export function signOf(letter: number): number {
  if (letter >= 0x30 && letter <= 0x39) return letter - 0x30 + 1;
  if (letter >= 0x61 && letter <= 0x7a) return letter - 0x61 + 11;
  return 37 + (letter % 25);
}

/** The sign of a folded character. */
export function signOfFolded(folded: number): number {
  if (folded === UNSEEN) return UNSEEN_SIGN;
  if (folded === SEVERAL) return SEVERAL_SIGN;
  return folded === GAP ? NO_SIGN : signOf(folded);
}

/** The sign of each character of the basic plane. */
export const SIGNS = new Uint8Array(0x10000);
for (let code = 0; code < 0x10000; code++) SIGNS[code] = signOfFolded(FOLD[code] as number);
