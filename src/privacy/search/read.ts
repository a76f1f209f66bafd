// Choices of the method and codes of file formats: not clinical numbers.

import { CAPITAL, FOLD, foldHigh, GAP, SEVERAL, severalOf, UNSEEN } from './fold.js';

/** How the letters of a text stand in bytes. */
export type Encoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE';

/** Other characters that may stand between two parts. */
export const WIDEST_GAP = 3;
const SPACE = 0x20;
/** Signs that count as a space between two words. */
export const SPACES: readonly number[] = [...' \u00a0\u2009\u202f'].map((mark) =>
  mark.charCodeAt(0),
);
/** Whether a sign counts as a space between two words. */
export const isSpace = (code: number): boolean =>
  code <= SPACE || (code >= 0x80 && SPACES.includes(code));

/** The character at a byte, times 8, plus the bytes that it takes. */
export type Reader = (at: number) => number;

/** Gives the character at a byte, times 8, plus the bytes that it takes; a byte that is no UTF-8 is read as Latin-1. */
export function readerOf(bytes: Uint8Array, encoding: Encoding): Reader {
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

/** A letter with what stood before it. */
export interface Seen {
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
export function lettersBetween(read: Reader, from: number, last: number, upTo: number): Seen[] {
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

/**
 * Where the letter before a character begins; null where none does, or where more stands between than may stand within
 * a name: then it is all the same what it is.
 */
export function letterBefore(
  bytes: Uint8Array,
  encoding: Encoding,
  read: Reader,
  before: number,
): number | null {
  const width = encoding === 'UTF-8' ? 1 : 2;
  // A byte that another character may hold is no place to begin at.
  const mayBeHeld = (at: number): boolean =>
    encoding === 'UTF-8'
      ? ((bytes[at] as number) & 0xc0) === 0x80
      : ((bytes[encoding === 'UTF-16LE' ? at + 1 : at] ?? 0) & 0xfc) === 0xdc;
  let gap = 0;
  let spaced = false;
  for (let end = before; end >= width; ) {
    const nearest = bytes[end - 1] as number;
    if (width === 1 && nearest < 0x80) {
      // Most text is no more than this.
      if (FOLD[nearest] !== GAP) return end - 1;
      const space = nearest <= SPACE;
      if (!(space && spaced) && ++gap > WIDEST_GAP) return null;
      spaced = space;
      end--;
      continue;
    }
    let from = end - width;
    while (from >= width && mayBeHeld(from)) from -= width;
    const starts: number[] = [];
    for (let at = from; at < end; at += read(at) % 8) starts.push(at);
    for (const at of starts.reverse()) {
      const code = Math.floor(read(at) / 8);
      const folded = code < 0x10000 ? (FOLD[code] as number) : foldHigh(code);
      if (folded === UNSEEN) continue;
      if (folded !== GAP) return at;
      const space = isSpace(code);
      if (!(space && spaced) && ++gap > WIDEST_GAP) return null;
      spaced = space;
    }
    end = from;
  }
  return null;
}
