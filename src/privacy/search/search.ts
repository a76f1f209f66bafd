// Choices of the method and codes of file formats: not clinical numbers.

import type { Piece } from '../bytes/piece.js';
import type { Identifier } from '../identifiers.js';
import { automatonFor } from './automaton.js';
import { CAPITAL, FOLD, foldHigh, GAP, SEVERAL, severalOf, UNSEEN } from './fold.js';
import { type Spelling, spellingsOf } from './spellings.js';

/** How the letters of a piece are written in bytes. */
export type Encoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE';

/** An identifier that was found in a piece. */
export interface Hit {
  readonly identifier: Identifier;
  /** Bytes of the piece. */
  readonly start: number;
  readonly end: number;
}

/** A search for many identifiers at once; each is found once a piece, where it stands first. */
export type Search = (piece: Pick<Piece, 'bytes' | 'sort'>, encoding?: Encoding) => Hit[];

/** Other characters that may stand between two parts. */
const WIDEST_GAP = 3;
/**
 * What speaks for a hit in bytes that are not text, in bits: an identifier that is shorter than this comes about by
 * chance, unless it stands among other readable characters. At 56 bits, 1 GB of compressed bytes and 25,000 spellings
 * give one such accident in some 3,000 builds.
 */
const ENOUGH: Readonly<Record<Piece['sort'], number>> = {
  text: 0,
  guessed: 28,
  binary: 40,
  packed: 56,
};
/** A power of two above the longest spelling. */
const RING = 512;

/**
 * @param ordinary words that the pages print of themselves: such a word alone, as in an animal called Heart, counts only
 *   with a capital letter in the middle of a sentence
 */
export function searchFor(
  identifiers: readonly Identifier[],
  ordinary: ReadonlySet<string> = new Set(),
): Search {
  const spellings: Spelling[] = [];
  const owners: Identifier[] = [];
  const seen = new Set<string>();
  for (const identifier of identifiers) {
    for (const spelling of spellingsOf(identifier.text)) {
      const { letters, shape, joints } = spelling;
      const key = `${shape} ${joints.join()} ${String.fromCodePoint(...letters)}`;
      if (letters.length < 2 || seen.has(key)) continue;
      seen.add(key);
      spellings.push(spelling);
      owners.push(identifier);
    }
  }
  const automaton = automatonFor(spellings.map(({ letters }) => letters));
  const { step, dense, denseStates, width, ends, endingIn } = automaton;
  const classOfLetter = memoized(automaton.classOf);
  const classes = classesOf(classOfLetter);

  // Where each of the last letters began: a ring, as all of them are asked for only where a spelling ends.
  const begins = new Int32Array(RING);

  return ({ bytes, sort }, encoding = 'UTF-8') => {
    const hits = new Map<Identifier, Hit>();
    const wide = encoding !== 'UTF-8';
    const read = readerOf(bytes, encoding);
    const high = encoding === 'UTF-16LE' ? 1 : 0;
    const low = 1 - high;

    /**
     * @param count letters so far
     * @param letter which of a character's letters was the last, where it stands for several
     */
    const consider = (
      state: number,
      count: number,
      [at, stop, letter]: readonly [number, number, number],
    ): void => {
      for (const which of endingIn(state)) {
        const identifier = owners[which] as Identifier;
        if (hits.has(identifier)) continue;
        const spelling = spellings[which] as Spelling;
        const first = count - spelling.letters.length;
        const from = first === 0 ? 0 : (begins[(first - 1) & (RING - 1)] as number);
        const seen = lettersBetween(read, from, at, letter);
        const view: Match = { ...viewOf(seen, spelling, first === 0), stop, bytes, read };
        if (!stands(view) || !isMeant(view, ordinary)) continue;
        if (ENOUGH[sort] > 0 && evidence(view, wide) < ENOUGH[sort]) continue;
        hits.set(identifier, { identifier, start: view.start, end: stop });
      }
    };

    // Nothing of this loop is shared with the functions around it: it runs over every byte of everything public.
    let count = 0;
    let gap = WIDEST_GAP + 1;
    let spaced = false;
    let state = 0;
    const { length } = bytes;
    for (let at = 0; at < length; ) {
      let code: number;
      let next: number;
      if (wide) {
        code = ((bytes[at + high] ?? 0) << 8) | (bytes[at + low] ?? 0);
        next = at + 2;
      } else {
        code = bytes[at] as number;
        next = at + 1;
      }
      if (wide ? code >= 0xd800 && code < 0xdc00 : code >= 0x80) {
        const packed = read(at);
        code = Math.floor(packed / 8);
        next = at + (packed % 8);
      }
      const own = code < 0x10000 ? (classes[code] as number) : classOfHigh(code, classOfLetter);
      if (own >= 0) {
        begins[count & (RING - 1)] = at;
        count++;
        if (gap > WIDEST_GAP) state = 0;
        gap = 0;
        spaced = false;
        state = state < denseStates ? (dense[state * width + own] as number) : step(state, own);
        if (ends[state] === 1) consider(state, count, [at, next, 0]);
      } else if (own === IS_GAP) {
        const space = code <= SPACE || (code >= 0x80 && SPACES.includes(code));
        // White space of any length is one gap, as a line may break there.
        if (!(space && spaced)) gap++;
        spaced = space;
      } else if (own === IS_SEVERAL) {
        const several = severalOf(code);
        for (let i = 0; i < several.length; i++) {
          begins[count & (RING - 1)] = at;
          count++;
          if (gap > WIDEST_GAP) state = 0;
          gap = 0;
          spaced = false;
          state = step(state, classOfLetter(several[i] as number));
          if (ends[state] === 1) consider(state, count, [at, next, i]);
        }
      }
      at = next;
    }
    return [...hits.values()];
  };
}

/** In place of a class of the automaton: a character between words, one that is passed over, one of several letters. */
const IS_GAP = -1;
const IS_UNSEEN = -2;
const IS_SEVERAL = -3;

/** For each character of the basic plane, the class of its letter. */
function classesOf(classOf: (letter: number) => number): Int32Array {
  const classes = new Int32Array(0x10000);
  for (let code = 0; code < 0x10000; code++) {
    classes[code] = classOfFolded(FOLD[code] as number, classOf);
  }
  return classes;
}

const classOfHigh = (code: number, classOf: (letter: number) => number): number =>
  classOfFolded(foldHigh(code), classOf);

function classOfFolded(folded: number, classOf: (letter: number) => number): number {
  if (folded === GAP) return IS_GAP;
  if (folded === UNSEEN) return IS_UNSEEN;
  return folded === SEVERAL ? IS_SEVERAL : classOf(folded);
}

function memoized(of: (letter: number) => number): (letter: number) => number {
  const known = new Map<number, number>();
  return (letter) => {
    const before = known.get(letter);
    if (before !== undefined) return before;
    const found = of(letter);
    known.set(letter, found);
    return found;
  };
}

const isSpace = (code: number): boolean => code <= SPACE || SPACES.includes(code);

/** A letter with what stood before it. */
interface Seen {
  readonly letter: number;
  readonly capital: boolean;
  readonly start: number;
  /** Characters between it and the letter before; the first of them. */
  readonly gap: number;
  readonly mark: number;
}

/**
 * The letters from one byte on, up to the character at another.
 * @param upTo the last letter of that character, where it stands for several
 */
function lettersBetween(
  read: (at: number) => number,
  from: number,
  last: number,
  upTo: number,
): Seen[] {
  const seen: Seen[] = [];
  let gap = 0;
  let mark = 0;
  let spaced = false;
  for (let at = from; at <= last; ) {
    const packed = read(at);
    const code = Math.floor(packed / 8);
    const folded = code < 0x10000 ? (FOLD[code] as number) : foldHigh(code);
    if (folded === GAP) {
      const space = isSpace(code);
      if (gap === 0) mark = code;
      if (!(space && spaced)) gap++;
      spaced = space;
    } else if (folded !== UNSEEN) {
      const capital = code < 0x10000 && CAPITAL[code] === 1;
      const letters = folded === SEVERAL ? severalOf(code) : [folded];
      for (const letter of at === last ? letters.slice(0, upTo + 1) : letters) {
        seen.push({ letter, capital, start: at, gap, mark });
        gap = 0;
        mark = 0;
      }
      spaced = false;
    }
    at += packed % 8;
  }
  return seen;
}

/** What stands before the first letter of a text. */
const NOTHING: Seen = { letter: 0, capital: false, start: 0, gap: WIDEST_GAP + 1, mark: 0 };

function viewOf(
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
interface Match {
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
  readonly read: (at: number) => number;
}

/** Whether the letters stand by themselves, and to each other as the spelling wants. */
function stands(match: Match): boolean {
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
  if (spelling.capitals.some((index) => !isCapital(index))) return false;
  const { joints } = spelling;
  let apart = 0;
  for (let i = 1; i < size; i++) {
    if (gapBefore(i) > 0 && !joints.includes(i)) apart++;
  }
  // Each letter by itself, as in J u n i p e r.
  return apart === 0 || (size >= 5 && apart === size - 1 - joints.length);
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

const SPACE = 0x20;
const SHORT_YEAR_MARKS = [...'./-\u2010\u2011\u2013'].map((mark) => mark.charCodeAt(0));
const SPACES = [...' \u00a0\u2009\u202f'].map((mark) => mark.charCodeAt(0));

/** Whether a word that the pages print themselves is meant as a name. */
function isMeant(match: Match, ordinary: ReadonlySet<string>): boolean {
  const { word } = match.spelling;
  if (word === null || !ordinary.has(word)) return true;
  const { isFirst, gapBefore, markBefore, isCapital, size } = match;
  if (!isCapital(0) || isFirst) return false;
  // WITHIN CAPITALS a capital says nothing.
  const shouted = Array.from({ length: size }, (_, i) => i).every((i) => isCapital(i));
  return !shouted && gapBefore(0) === 1 && SPACES.includes(markBefore(0));
}

/** How little chance is likely to have written this, in bits: the identifier, and the readable characters around it. */
function evidence({ size, letter, start, stop, bytes }: Match, wide: boolean): number {
  let bits = 0;
  for (let i = 0; i < size; i++) {
    const own = letter(i);
    bits += wide ? 15 : own > 0x7f ? 14 : isDigit(own) ? 8 : 7;
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
  return bits + around * (wide ? 9 : 1.4);
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

/** Gives the character at a byte, times 8, plus the bytes that it takes; a byte that is no UTF-8 is read as Latin-1. */
function readerOf(bytes: Uint8Array, encoding: Encoding): (at: number) => number {
  const byte = (at: number) => bytes[at] ?? 0;
  if (encoding === 'UTF-8') {
    const tail = (at: number) => ((bytes[at] ?? 0) & 0xc0) === 0x80;
    return (at) => {
      const first = byte(at);
      if (first < 0xc2 || first > 0xf4 || !tail(at + 1)) return first * 8 + 1;
      const second = byte(at + 1) & 0x3f;
      if (first < 0xe0) return (((first & 0x1f) << 6) | second) * 8 + 2;
      if (!tail(at + 2)) return first * 8 + 1;
      const third = byte(at + 2) & 0x3f;
      if (first < 0xf0) return (((first & 0x0f) << 12) | (second << 6) | third) * 8 + 3;
      if (!tail(at + 3)) return first * 8 + 1;
      const code = ((first & 7) << 18) | (second << 12) | (third << 6) | (byte(at + 3) & 0x3f);
      return code > 0x10ffff ? first * 8 + 1 : code * 8 + 4;
    };
  }
  const unit =
    encoding === 'UTF-16LE'
      ? (at: number) => byte(at) | (byte(at + 1) << 8)
      : (at: number) => (byte(at) << 8) | byte(at + 1);
  return (at) => {
    const first = unit(at);
    if (first < 0xd800 || first > 0xdbff) return first * 8 + 2;
    const second = unit(at + 2);
    if (second < 0xdc00 || second > 0xdfff) return first * 8 + 2;
    return (0x10000 + ((first - 0xd800) << 10) + (second - 0xdc00)) * 8 + 4;
  };
}
