// Choices of the method and codes of file formats: not clinical numbers.

import { foldHigh, severalOf } from './fold.js';
import { ANY_MANNER, bitsOf, mannersLeft } from './manners.js';
import { isSpace, type Reader, WIDEST_GAP } from './read.js';
import * as signs from './signs.js';
import { SIGNS, signOf, signOfFolded } from './signs.js';
import type { Spelling } from './spellings.js';

// What is imported or exported is looked up anew at each use; what a module keeps to itself is not.
const { SIGN_BITS, NO_SIGN, UNSEEN_SIGN, SEVERAL_SIGN } = signs;

/** Letters that are looked at together. */
const WINDOW = 4;
/** A letter in a window: its sign, whether there is a gap before it, whether a word may begin with it. */
const LETTER_BITS = 8;
const BEHIND_GAP = 1 << SIGN_BITS;
const OPENING = 1 << (SIGN_BITS + 1);
const LETTER = (1 << LETTER_BITS) - 1;

/**
 * With what the spellings begin: the first four letters of each, and which of them have a gap before them. Whatever is
 * not among these is the beginning of none; the few others that share a place in the table are found out by reading on.
 */
export interface FirstLetters {
  /** 1 for the first two letters of a spelling that has fewer than four. */
  readonly twos: Uint8Array;
  /** A bit for each place that the window of a longer one falls on. */
  readonly places: Int32Array;
  /** How far a scattered window is shifted to give its place. */
  readonly shift: number;
}

/** What counts of a window: that a word begins with the first letter, and what stands between the others. */
const COUNTS = 0xbf7f7f7f;
const TWO = (1 << (2 * LETTER_BITS)) - 1;

/** Spreads windows over 32 bits, so that like ones fall on places far apart. */
const SCATTER = 0x9e3779b1;

/** Places for each window, so that few others fall on one; up to a quarter of a megabyte, which a cache still holds. */
const ROOM = 32;
const MOST_PLACES_LOG = 21;

export function firstLettersOf(spellings: readonly Spelling[]): FirstLetters {
  const twos = new Uint8Array(TWO + 1);
  const fours = new Set<number>();
  for (const spelling of spellings) {
    const short = spelling.letters.length < WINDOW;
    for (const window of windowsOf(spelling, short ? 2 : WINDOW)) {
      if (short) for (const either of UNCOUNTED_OF_TWO) twos[window | either] = 1;
      else fours.add(window);
    }
  }
  const wanted = Math.ceil(Math.log2(ROOM * (fours.size + 1)));
  const log = Math.min(MOST_PLACES_LOG, Math.max(5, wanted));
  const places = new Int32Array(2 ** (log - 5));
  const shift = 32 - log;
  for (const window of fours) {
    const place = Math.imul(window, SCATTER) >>> shift;
    places[place >> 5] = (places[place >> 5] as number) | (1 << (place & 31));
  }
  return { twos, places, shift };
}

/** What does not count of two letters, set or not: the gap before the first, a word that begins with the second. */
const UNCOUNTED_OF_TWO = [
  0,
  OPENING,
  BEHIND_GAP << LETTER_BITS,
  OPENING | (BEHIND_GAP << LETTER_BITS),
];

/** The first letters of a spelling with every way in which gaps may stand between them. */
function windowsOf(spelling: Spelling, count: number): number[] {
  let ways = [{ window: OPENING | signOf(spelling.letters[0] as number), manners: ANY_MANNER }];
  for (let i = 1; i < count; i++) {
    const sign = signOf(spelling.letters[i] as number);
    const bits = bitsOf(spelling, i);
    ways = ways.flatMap(({ window, manners }) =>
      [false, true].flatMap((gap) => {
        const left = mannersLeft(manners, bits, gap);
        const letter = sign | (gap ? BEHIND_GAP : 0);
        return left === 0 ? [] : [{ window: (window << LETTER_BITS) | letter, manners: left }];
      }),
    );
  }
  return ways.map(({ window }) => window);
}

/**
 * Told of each place where the last of the first letters of a spelling may stand.
 * @param at the byte of its character
 * @param back how many letters before it the spelling begins
 */
export type Begin = (at: number, back: number) => void;

/** What stood before a character: a gap, or a letter of some kind. */
const AFTER_GAP = 0;
const LOWER = 1;
const UPPER = 2;
const DIGIT = 3;
const OTHER = 4;

function kindOf(byte: number): number {
  if (byte >= 0x61 && byte <= 0x7a) return LOWER;
  if (byte >= 0x41 && byte <= 0x5a) return UPPER;
  return byte >= 0x30 && byte <= 0x39 ? DIGIT : OTHER;
}

/**
 * Whether a word may begin with a letter of one kind right after one of another: a digit after a letter, a letter after a
 * digit, a capital after a small letter. Other scripts may leave no space between words.
 */
const opens = (before: number, kind: number): boolean =>
  before === AFTER_GAP ||
  before === OTHER ||
  kind === OTHER ||
  (before === DIGIT) !== (kind === DIGIT) ||
  (before === LOWER && kind === UPPER);

/** What a letter adds to a window, and by how much that moves on; above it, what the next character stands after. */
const stepOf = (before: number, kind: number, sign: number): number =>
  sign |
  (before === AFTER_GAP ? BEHIND_GAP : 0) |
  (opens(before, kind) ? OPENING : 0) |
  (LETTER_BITS << SHIFT_AT) |
  (kind << BEFORE_AT);
const SHIFT_AT = LETTER_BITS;
const IS_LETTER_AT = SHIFT_AT + 3;
const BEFORE_AT = SHIFT_AT + 4;
/** A byte that may be no character of its own, or that does not count as one letter. */
const LEADS = 1 << (BEFORE_AT + 3);
const IS_SPECIAL = LEADS << 1;

/** The step of each byte as a character of its own, at `before << 8 | byte`. A gap adds nothing and moves nothing. */
const STEPS = new Int32Array(8 << 8);
for (const before of [AFTER_GAP, LOWER, UPPER, DIGIT, OTHER]) {
  for (let byte = 0; byte < 0x100; byte++) {
    const sign = SIGNS[byte] as number;
    const leads = byte >= 0xc2 && byte <= 0xf4 ? LEADS : 0;
    const special = sign === UNSEEN_SIGN || sign === SEVERAL_SIGN ? IS_SPECIAL : 0;
    const step = sign === NO_SIGN || special > 0 ? 0 : stepOf(before, kindOf(byte), sign);
    STEPS[(before << 8) | byte] = leads | special | step;
  }
}

/**
 * Goes over bytes once for the places where a spelling may begin: where a word begins whose first letters, and the gaps
 * between them, are those of some spelling. What it lets through is read letter by letter.
 *
 * Everything public passes through this loop. Its work is the same whatever the number of identifiers, and nearly the
 * same whatever the byte: among random bytes a processor guesses every second branch wrong, which costs more than the
 * arithmetic that it would leave out.
 */
export function beginningsIn(
  bytes: Uint8Array,
  read: Reader,
  { twos, places, shift }: FirstLetters,
  begin: Begin,
): void {
  const { length } = bytes;
  // The last four letters, and what the next one stands after.
  let window = 0;
  let before = AFTER_GAP;
  // What is left of a character that stands for several letters.
  let several: readonly number[] = [];
  for (let at = 0; at < length; ) {
    let step = STEPS[(before << 8) | (bytes[at] as number)] as number;
    let next = at + 1;
    if (step >= LEADS && (step >= IS_SPECIAL || ((bytes[next] as number) & 0xc0) === 0x80)) {
      const packed = read(at);
      const code = packed >> 3;
      next = at + (packed & 7);
      let sign = code < 0x10000 ? (SIGNS[code] as number) : signOfFolded(foldHigh(code));
      if (sign === SEVERAL_SIGN) {
        if (several.length === 0) several = severalOf(code);
        sign = signOf(several[0] as number);
        several = several.slice(1);
        if (several.length > 0) next = at;
      }
      if (sign === UNSEEN_SIGN) {
        at = next;
        continue;
      }
      step = sign === NO_SIGN ? 0 : stepOf(before, OTHER, sign);
    }
    window = (window << ((step >> SHIFT_AT) & 15)) | (step & LETTER);
    before = (step >> BEFORE_AT) & 7;
    const place = Math.imul(window & COUNTS, SCATTER) >>> shift;
    const fits = ((places[place >> 5] as number) >> (place & 31)) | (twos[window & TWO] as number);
    if ((fits & (step >> IS_LETTER_AT) & 1) !== 0) {
      // As it is seldom, which of the two it was is asked for again.
      if (((places[place >> 5] as number) >> (place & 31)) & 1) begin(at, WINDOW - 1);
      if (twos[window & TWO] === 1) begin(at, 1);
    }
    at = next;
  }
}

/** Whether the letters from a character on, by which a word may begin, are the first letters of a spelling. */
export function fitsAt(from: number, length: number, read: Reader, firsts: FirstLetters): boolean {
  const { twos, places, shift } = firsts;
  let window = 0;
  let gap = 0;
  // Of a gap, what is no white space.
  let others = 0;
  let count = 0;
  for (let at = from; at < length; ) {
    const packed = read(at);
    const code = packed >> 3;
    const sign = code < 0x10000 ? (SIGNS[code] as number) : signOfFolded(foldHigh(code));
    at += packed & 7;
    if (sign === SEVERAL_SIGN) return true;
    if (sign === NO_SIGN) {
      if (!isSpace(code) && ++others > WIDEST_GAP) return false;
      gap = BEHIND_GAP;
    } else if (sign !== UNSEEN_SIGN) {
      window = (window << LETTER_BITS) | sign | gap | (count === 0 ? OPENING : 0);
      gap = 0;
      others = 0;
      count++;
      if (count === 2 && twos[window] === 1) return true;
      if (count < WINDOW) continue;
      const place = Math.imul(window & COUNTS, SCATTER) >>> shift;
      return (((places[place >> 5] as number) >> (place & 31)) & 1) !== 0;
    }
  }
  return false;
}
