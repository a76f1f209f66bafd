// Choices of the method and codes of file formats: not clinical numbers.

import { Bits, bitsFor, type PlainBits } from './bits.js';
import { foldHigh, severalOf } from './fold.js';
import { Ints } from './ints.js';
import { gapBefore, readOn } from './lexicon.js';
import { ANY_MANNER, bitsOf, mannersLeft } from './manners.js';
import type { Reader } from './read.js';
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
const SIGN = (1 << SIGN_BITS) - 1;

/**
 * With what the spellings begin, as plain data: the first four letters of each, and which of them have a gap before them. Whatever is
 * not among these is the beginning of none; the few others that share a place in the table are found out by reading on.
 */
export interface FirstLetters {
  /** 1 for the first two letters of a spelling that has fewer than four. */
  readonly twos: Uint8Array;
  /** The first four letters of the others, scattered. */
  readonly fours: PlainBits;
  /** Of spellings that begin with a digit and are long enough, the first six letters, however they stand. */
  readonly sixes: PlainBits;
}

/** What counts of a window: that a word begins with the first letter, and what stands between the others. */
const COUNTS = 0xbf7f7f7f;
/** That a word begins with the last letter but one of a window, or of the letters before it. */
const LAST_BUT_ONE = OPENING << LETTER_BITS;
const TWO = (1 << (2 * LETTER_BITS)) - 1;

/**
 * Letters that are looked at together where the first is a digit: of four digits in a row, as every drawing is full of
 * them, some identifier is likely to have each.
 */
const LONG_WINDOW = WINDOW + 2;
/** What counts of the four letters of it that come last, and of the two before them. */
const SIGNS_OF_FOUR = 0x3f3f3f3f;
const SIGNS_OF_TWO = 0xbf3f;
const NINE = signOf('9'.charCodeAt(0));

/** Spreads windows over 32 bits, so that like ones fall on places far apart. */
const SCATTER = 0x9e3779b1;

/** Up to a quarter of a megabyte, which a cache still holds. Bits, in base 2. */
const MOST_LOG = 21;

const scatteredFour = (window: number): number => Math.imul(window & COUNTS, SCATTER);
const scatteredSix = (older: number, window: number): number =>
  Math.imul(Math.imul(older & SIGNS_OF_TWO, SCATTER) + (window & SIGNS_OF_FOUR), SCATTER);

const isDigit = (letter: number): boolean => letter >= 0x30 && letter <= 0x39;

/** Gathers the first letters of spellings. */
export class Gathering {
  private readonly twos = new Uint8Array(TWO + 1);
  private readonly fours = new Ints();
  private readonly sixes = new Ints();

  heed(spelling: Spelling): void {
    const { letters } = spelling;
    if (letters.length >= LONG_WINDOW && isDigit(letters[0] as number)) {
      const [a, b, ...others] = letters.slice(0, LONG_WINDOW).map(signOf) as [number, number];
      const four = others.reduce((window, sign) => (window << LETTER_BITS) | sign, 0);
      this.sixes.push(scatteredSix((OPENING << LETTER_BITS) | (a << LETTER_BITS) | b, four));
    } else if (spelling.letters.length >= WINDOW) {
      forWindows(spelling, WINDOW, (window) => this.fours.push(scatteredFour(window)));
    } else {
      forWindows(spelling, 2, (window) => {
        for (const either of UNCOUNTED_OF_TWO) this.twos[window | either] = 1;
      });
    }
  }

  done(): FirstLetters {
    return {
      twos: this.twos,
      fours: bitsFor(this.fours.done(), MOST_LOG),
      sixes: bitsFor(this.sixes.done(), MOST_LOG),
    };
  }
}

/** What does not count of two letters, set or not: the gap before the first, a word that begins with the second. */
const UNCOUNTED_OF_TWO = [
  0,
  OPENING,
  BEHIND_GAP << LETTER_BITS,
  OPENING | (BEHIND_GAP << LETTER_BITS),
];

/** Gives the first letters of a spelling with every way in which gaps may stand between them. */
function forWindows(
  spelling: Spelling,
  count: number,
  give: (window: number) => void,
  index = 1,
  window = OPENING | signOf(spelling.letters[0] as number),
  manners = ANY_MANNER,
): void {
  if (index === count) {
    give(window);
    return;
  }
  const bits = bitsOf(spelling, index);
  const longer = (window << LETTER_BITS) | signOf(spelling.letters[index] as number);
  const [beside, apart] = [mannersLeft(manners, bits, false), mannersLeft(manners, bits, true)];
  if (beside > 0) forWindows(spelling, count, give, index + 1, longer, beside);
  if (apart > 0) forWindows(spelling, count, give, index + 1, longer | BEHIND_GAP, apart);
}

/**
 * Told of each place where the last of the first letters of a spelling may stand.
 * @param at the byte of its character
 * @param index which of the letters of that character
 * @param window these letters, as many as four: see `hashOf` and `gapsOf`
 * @param older the letters before those four
 * @param count how many they are
 */
export type Begin = (
  at: number,
  index: number,
  window: number,
  older: number,
  count: number,
) => void;

/** A letter of those, by how many stand behind it. */
const letterOf = (window: number, older: number, behind: number): number =>
  behind < WINDOW ? window >> (LETTER_BITS * behind) : older >> (LETTER_BITS * (behind - WINDOW));

/** What the letters that a `Begin` is told come to. */
export function hashOf(window: number, older: number, count: number): number {
  let hash = 0;
  for (let behind = count - 1; behind >= 0; behind--) {
    hash = readOn(hash, letterOf(window, older, behind) & SIGN);
  }
  return hash;
}

/** Before which of the letters that a `Begin` is told a gap stands. */
export function gapsOf(window: number, older: number, count: number): number {
  let gaps = 0;
  for (let i = 1; i < count; i++) {
    if ((letterOf(window, older, count - 1 - i) & BEHIND_GAP) !== 0) gaps |= gapBefore(i);
  }
  return gaps;
}

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

/** What a letter adds to a window beside its sign, at `before << 3 | kind`. */
const MARKS = new Uint8Array(8 << 3);
for (const before of [AFTER_GAP, LOWER, UPPER, DIGIT, OTHER]) {
  for (const kind of [LOWER, UPPER, DIGIT, OTHER]) {
    MARKS[(before << 3) | kind] =
      (before === AFTER_GAP ? BEHIND_GAP : 0) | (opens(before, kind) ? OPENING : 0);
  }
}

/** Of each byte as a character of its own: its kind, and its sign below that; 0 for a gap. */
const BYTES = new Uint16Array(256);
/** It may begin a character of several bytes, if the next may go on; by itself it may be no single letter. */
const OF_MORE = 1 << 15;
const KIND = 7;
for (let byte = 0; byte < 256; byte++) {
  const sign = SIGNS[byte] as number;
  const isLetter = sign !== NO_SIGN && sign !== UNSEEN_SIGN && sign !== SEVERAL_SIGN;
  const leads = byte >= 0xc2 && byte <= 0xf4;
  BYTES[byte] =
    (isLetter ? (kindOf(byte) << SIGN_BITS) | sign : 0) |
    (leads || sign === UNSEEN_SIGN || sign === SEVERAL_SIGN ? OF_MORE : 0);
}

/**
 * Goes over bytes once for the places where a spelling may begin: where a word begins whose first letters, and the gaps
 * between them, are those of some spelling. What it lets through is read on.
 *
 * Everything public passes through this loop. Its work is the same whatever the number of identifiers.
 */
export function beginningsIn(
  bytes: Uint8Array,
  read: Reader,
  { twos, fours: keptFours, sixes: keptSixes }: FirstLetters,
  begin: Begin,
): void {
  const { length } = bytes;
  const fours = Bits.of(keptFours);
  const sixes = Bits.of(keptSixes);
  // The last four letters, those before them, and what the next one stands after.
  let window = 0;
  let older = 0;
  let before = AFTER_GAP;
  // A character that stands for several letters, and which of them is under way.
  let several = -1;
  let index = 0;
  for (let at = 0; at < length; ) {
    const byte = BYTES[bytes[at] as number] as number;
    let sign = byte & SIGN;
    let kind = (byte >> SIGN_BITS) & KIND;
    let next = at + 1;
    if (byte >= OF_MORE && (byte === OF_MORE || ((bytes[next] as number) & 0xc0) === 0x80)) {
      const packed = read(at);
      const code = packed >> 3;
      next = at + (packed & 7);
      sign = code < 0x10000 ? (SIGNS[code] as number) : signOfFolded(foldHigh(code));
      kind = OTHER;
      if (sign === SEVERAL_SIGN) {
        index = several === at ? index + 1 : 0;
        several = at;
        const letters = severalOf(code);
        sign = signOf(letters[index] as number);
        if (index + 1 < letters.length) next = at;
      } else if (sign === UNSEEN_SIGN) {
        at = next;
        continue;
      }
    }
    if (sign === NO_SIGN) {
      before = AFTER_GAP;
      at = next;
      continue;
    }
    older = (older << LETTER_BITS) | (window >>> (3 * LETTER_BITS));
    window = (window << LETTER_BITS) | (MARKS[(before << 3) | kind] as number) | sign;
    before = kind;
    // Where no word begins with the letter that would be the first of two, of four or of six, nothing does.
    if (window >= 0 && ((window | older) & LAST_BUT_ONE) === 0) {
      at = next;
      continue;
    }
    const isTwo = twos[window & TWO] === 1;
    const isFour = fours.has(scatteredFour(window));
    const isSix = sixes.has(scatteredSix(older, window)) && ((older >> LETTER_BITS) & SIGN) <= NINE;
    if (isTwo || isFour || isSix) {
      const which = several === at ? index : 0;
      if (isFour) begin(at, which, window, older, WINDOW);
      if (isTwo) begin(at, which, window, older, 2);
      if (isSix) begin(at, which, window, older, LONG_WINDOW);
    }
    at = next;
  }
}
