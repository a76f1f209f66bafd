// Choices of the method and codes of file formats: not clinical numbers.

import { type OwnText, stretchOf } from '../own-text.js';
import { CAPITAL, FOLD, foldHigh, GAP, SEVERAL, severalOf, UNSEEN } from './fold.js';
import { type Reader, type Seen, SPACES, WIDEST_GAP } from './read.js';
import type { Spelling } from './spellings.js';

/** What stands before the first letter of a text. */
const NOTHING: Seen = { letter: 0, capital: false, start: 0, gap: WIDEST_GAP + 1, mark: 0 };

/** A spelling where it was read: what stands before it and in its gaps, for the judgement whether it is meant. */
export function viewOf(
  seen: readonly Seen[],
  spelling: Spelling,
  isFirst: boolean,
): Omit<Match, 'stop' | 'bytes' | 'read'> {
  const size = spelling.letters.length;
  const first = seen.length - size;
  const at = (index: number): Seen => seen[first + index] ?? NOTHING;
  return {
    size,
    spelling,
    // Before the very first letter everything is far away.
    gapBefore: (index) => (isFirst && index === 0 ? NOTHING.gap + at(0).gap : at(index).gap),
    markBefore: (index) => at(index).mark,
    isCapital: (index) => at(index).capital,
    letter: (index) => at(index).letter,
    isFirst,
    start: at(0).start,
  };
}

/** Letters in a row that may be a spelling. */
export interface Match {
  readonly spelling: Spelling;
  readonly size: number;
  /** Characters between a letter and the one before it; the first of them. */
  readonly gapBefore: (index: number) => number;
  readonly markBefore: (index: number) => number;
  readonly isCapital: (index: number) => boolean;
  readonly letter: (index: number) => number;
  /** Nothing readable stands before it. */
  readonly isFirst: boolean;
  readonly start: number;
  readonly stop: number;
  readonly bytes: Uint8Array;
  readonly read: Reader;
}

/** Whether the letters stand by themselves, and to each other as the spelling wants. */
export function stands(match: Match): boolean {
  switch (match.spelling.shape) {
    case 'name':
      return nameStands(match);
    case 'joined':
      return innerGaps(match).every((gap) => gap === 0) && edgesStand(match);
    case 'number':
      return numberStands(match);
    case 'compact':
      return compactStands(match);
    case 'figures':
    case 'short year':
      return dayStands(match);
  }
}

const innerGaps = ({ size, gapBefore }: Match): number[] =>
  Array.from({ length: size - 1 }, (_, i) => gapBefore(i + 1));

function nameStands(match: Match): boolean {
  const { size, spelling, gapBefore, isCapital } = match;
  if (!edgesStand(match)) return false;
  if (isYearlessDay(spelling) && isInUuid(match)) return false;
  if (spelling.capitals.some((index) => !isCapital(index))) return false;
  const { joints } = spelling;
  let apart = 0;
  for (let i = 1; i < size; i++) {
    if (gapBefore(i) > 0 && !joints.includes(i)) apart++;
  }
  // Each letter by itself, as in J u n i p e r.
  return apart === 0 || (size >= 5 && apart === size - 1 - joints.length);
}

/** RFC 9562, section 4: the ids of a feed are full of hexadecimal digits, among them 5dec and 3feb. */
const UUID = /[\da-f]{8}-(?:[\da-f]{4}-){3}[\da-f]{12}/g;
const UUID_LENGTH = 36;

function isInUuid({ bytes, start, stop }: Match): boolean {
  const from = Math.max(0, start - UUID_LENGTH);
  const text = Buffer.from(bytes.subarray(from, stop + UUID_LENGTH)).toString('latin1');
  return [...text.matchAll(UUID)].some(
    ({ index }) => from + index <= start && stop <= from + index + UUID_LENGTH,
  );
}

/** A whole word; in long ones a digit, a capital after small letters, and the endings of English count as an end. */
function edgesStand(match: Match): boolean {
  const { size, gapBefore, isCapital, letter, isFirst } = match;
  const long = size >= 5;
  const opens =
    isFirst ||
    gapBefore(0) > 0 ||
    runsOn(letter(0)) ||
    (isDigit(letter(-1)) !== isDigit(letter(0)) && size >= 4) ||
    (long && isCapital(0) && !isCapital(-1));
  if (!opens) return false;
  const last = letter(size - 1);
  const ended = (after: Following, from: number) =>
    after.letter === null ||
    runsOn(from) ||
    (isDigit(after.letter) !== isDigit(from) && size >= 4) ||
    (long && after.capital && !isCapital(size - 1));
  const after = following(match, match.stop);
  if (ended(after, last)) return true;
  if (size < 4 || isDigit(last)) return false;
  // Plural and possessive: s, es.
  const second = following(match, after.stop);
  if (after.letter === S) return ended(second, S);
  return after.letter === E && second.letter === S && ended(following(match, second.stop), S);
}

/** Digits in groups; in a row of numbers, such as a drawing's coordinates, only the identifier's own groups count. */
function numberStands(match: Match): boolean {
  const { size, spelling, gapBefore, markBefore, letter, isFirst } = match;
  if (!isFirst && gapBefore(0) === 0 && isDigit(letter(-1))) return false;
  const after = following(match, match.stop);
  if (after.letter !== null && isDigit(after.letter)) return false;
  const places = Array.from({ length: size - 1 }, (_, i) => i + 1).filter((i) => gapBefore(i) > 0);
  if (places.length === 0 || places.join() === spelling.joints.join()) return true;
  if (size >= 12) return true;
  const [one] = places as [number];
  const alike = places.every((i) => markBefore(i) === markBefore(one));
  const each = places.length === size - 1;
  const groups = [...places, size].map((end, i) => end - (i === 0 ? 0 : (places[i - 1] as number)));
  if (!each && (!alike || groups.some((digits) => digits < 2))) return false;
  const letterBefore = !isFirst && gapBefore(0) === 0;
  const numberBefore = !isFirst && gapBefore(0) <= 2 && isDigit(letter(-1));
  const next = following(match, match.stop, 2);
  return !letterBefore && !numberBefore && next.letter === null && after.letter === null;
}

/** 20260310, also with a time of day joined to it. */
function compactStands(match: Match): boolean {
  if (innerGaps(match).some((gap) => gap > 0)) return false;
  const { gapBefore, letter, isFirst } = match;
  if (!isFirst && gapBefore(0) === 0 && isDigit(letter(-1))) return false;
  let digits = 0;
  let at = match.stop;
  for (; digits < 10; digits++) {
    const after = following(match, at);
    if (after.letter === null || !isDigit(after.letter)) break;
    at = after.stop;
  }
  return [0, 4, 6, 9].includes(digits);
}

function dayStands(match: Match): boolean {
  const { size, spelling, gapBefore, markBefore, letter, isFirst } = match;
  const [one, two] = spelling.joints as [number, number];
  for (let i = 1; i < size; i++) if (i !== one && i !== two && gapBefore(i) > 0) return false;
  if (gapBefore(one) === 0 || gapBefore(one) !== gapBefore(two)) return false;
  if (markBefore(one) !== markBefore(two)) return false;
  if (!isFirst && gapBefore(0) === 0 && isDigit(letter(-1))) return false;
  const after = following(match, match.stop);
  if (after.letter !== null && isDigit(after.letter)) return false;
  const short = spelling.shape === 'short year';
  if (short && (gapBefore(one) > 1 || !SHORT_YEAR_MARKS.includes(markBefore(one)))) return false;
  if (!SPACES.includes(markBefore(one)) && !short) return true;
  // 10 03 2026 among other numbers is a row of numbers, and so is 1.10.03.26.
  const numberBefore =
    !isFirst && gapBefore(0) === 1 && isDigit(letter(-1)) && markBefore(0) === markBefore(one);
  if (numberBefore) return false;
  return short || size === 8;
}

const SHORT_YEAR_MARKS = [...'./-\u2010\u2011\u2013'].map((mark) => mark.charCodeAt(0));

/** Whether a word that the pages print themselves is meant as a name. */
export function isMeant(match: Match, own: OwnText): boolean {
  const { word } = match.spelling;
  if (word === null || !own.has(word)) return true;
  const { isFirst, gapBefore, markBefore, isCapital, size } = match;
  if (!isCapital(0) || isFirst) return false;
  // WITHIN CAPITALS a capital says nothing.
  const shouted = Array.from({ length: size }, (_, i) => i).every((i) => isCapital(i));
  if (shouted || gapBefore(0) !== 1 || !SPACES.includes(markBefore(0))) return false;
  return !isOwn(match, own);
}

/** More than two words are long. */
const FAR = 120;

/**
 * Whether the word stands in a stretch of our own text: with the two words on either side it is what the page says of any
 * patient. Of text in UTF-16 that is not asked.
 */
function isOwn({ bytes, start, stop }: Match, own: OwnText): boolean {
  const said = (from: number, to: number) =>
    new TextDecoder().decode(bytes.subarray(Math.max(0, from), to));
  const stretch = stretchOf(said(start - FAR, start), said(start, stop), said(stop, stop + FAR));
  return stretch !== null && own.says(stretch);
}

/**
 * Log2 of the days and ways to write them that are sought without a year: so much sooner chance writes one of them than a
 * name of as many letters.
 */
const YEARLESS_DAYS = 16;

/** A day in words that has no year: `Aug 1`. */
const isYearlessDay = ({ shape, letters }: Spelling): boolean => {
  const digits = letters.filter(isDigit).length;
  return shape === 'name' && digits > 0 && digits < 4 && digits < letters.length;
};

/**
 * How little chance is likely to have written this, in bits: the identifier, and the readable characters around it. Samples
 * of a signal are small numbers, most of which are letters when they are read as UTF-16: one is worth no more than a byte.
 */
export function evidence(match: Match, wide: boolean): number {
  const { size, letter, spelling, start, stop, bytes } = match;
  let bits = isYearlessDay(spelling) ? -YEARLESS_DAYS : 0;
  for (let i = 0; i < size; i++) {
    const own = letter(i);
    bits += wide || isDigit(own) ? 8 : own > 0x7f ? 14 : 7;
  }
  const readable = (at: number) => {
    const [low, high] = [bytes[at] ?? 0, bytes[at + 1] ?? 1];
    if (!wide) return low >= 0x20 && low < 0x7f;
    return (high === 0 && low >= 0x20 && low < 0x7f) || (low === 0 && high >= 0x20 && high < 0x7f);
  };
  const width = wide ? 2 : 1;
  let around = 0;
  for (let at = start - width; at >= 0 && around < 60 && readable(at); at -= width) around++;
  for (let at = stop; at < bytes.length && around < 120 && readable(at); at += width) around++;
  return bits + around * 1.4;
}

interface Following {
  /** The letter or digit that follows without anything between; null where something else or nothing does. */
  readonly letter: number | null;
  readonly capital: boolean;
  readonly stop: number;
}

/** @param over other characters that may be passed over before it */
function following({ bytes, read }: Match, from: number, over = 0): Following {
  let passed = 0;
  for (let at = from; at < bytes.length; ) {
    const packed = read(at);
    const code = Math.floor(packed / 8);
    at += packed % 8;
    const folded = code < 0x10000 ? (FOLD[code] as number) : foldHigh(code);
    if (folded === UNSEEN) continue;
    if (folded === GAP) {
      if (++passed > over) break;
      continue;
    }
    const letter = folded === SEVERAL ? (severalOf(code)[0] as number) : folded;
    if (over > 0 && !isDigit(letter)) break;
    return { letter, capital: code < 0x10000 && CAPITAL[code] === 1, stop: at };
  }
  return { letter: null, capital: false, stop: from };
}

const S = 's'.charCodeAt(0);
const E = 'e'.charCodeAt(0);
const isDigit = (letter: number): boolean =>
  letter < 0x80 ? letter <= 0x39 : /\p{N}/u.test(String.fromCodePoint(letter));

/** Letters of scripts that leave no space between words. */
const runsOn = (letter: number): boolean =>
  letter > 0xdff &&
  /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Thai}\p{Script=Lao}\p{Script=Khmer}\p{Script=Myanmar}]/u.test(
    String.fromCodePoint(letter),
  );
