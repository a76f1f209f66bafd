// Choices of the method and codes of file formats: not clinical numbers.

import { inside, lastUpTo, latin, type Piece } from './piece.js';

/** Shorter runs say less than four letters. */
const SHORTEST_BASE64 = 8;
const SHORTEST_HEX = 12;
/** Shorter runs hold no file of their own. */
const SHORTEST_FILE = 32;

/** What encoded runs of a text say. */
export interface Decoded {
  /** All runs together, each apart from the next; one piece for each way to begin. */
  readonly all: readonly Piece[];
  /** Runs that are long enough to be files. */
  readonly runs: readonly Piece[];
}

const BASE64 = /[A-Za-z0-9+/_-]+(?:\\?\r?\n[ \t]*[A-Za-z0-9+/_-]{4,})*/g;

/**
 * What runs of base64 (also as in addresses, also over several lines) say. A run may begin anywhere in the encoded bytes,
 * so that each of the four beginnings is tried.
 */
export function fromBase64(piece: Piece): Decoded {
  const text = latin(piece.bytes);
  const runs: { readonly index: number; readonly end: number }[] = [];
  for (let found = BASE64.exec(text); found; found = BASE64.exec(text)) {
    const end = BASE64.lastIndex;
    if (end - found.index >= SHORTEST_BASE64) runs.push({ index: found.index, end });
  }
  return decoded(
    piece,
    'base64',
    [0, 1, 2, 3].map((phase) =>
      runs.map(({ index, end }) => (put) => {
        let bits = 0;
        let held = 0;
        let skipped = 0;
        // The sign in which the byte under way begins.
        let begins = index;
        for (let i = index; i < end; i++) {
          const value = VALUES[piece.bytes[i] as number] as number;
          if (value < 0 || skipped++ < phase) continue;
          bits = ((bits << 6) | value) & 0xffffff;
          held += 6;
          if (held === 6) begins = i;
          if (held < 8) continue;
          held -= 8;
          put((bits >> held) & 0xff, begins);
          begins = i;
        }
      }),
    ),
  );
}

const VALUES = new Int8Array(256).fill(-1);
[...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'].forEach((sign, value) => {
  VALUES[sign.charCodeAt(0)] = value;
});
VALUES['-'.charCodeAt(0)] = 62;
VALUES['_'.charCodeAt(0)] = 63;

/** What runs of hexadecimal digits say, also with blanks, colons, commas or `0x` and `\x` between the pairs. */
export function fromHex(piece: Piece): Decoded {
  const text = latin(piece.bytes);
  const spaced = /(?:[\da-fA-F]{2}(?:\\x|[,;]? ?0x|[ :,-]|\r?\n)?){6,}/g;
  const runs = [...text.matchAll(spaced)].filter(([run]) => run.length >= SHORTEST_HEX);
  const solid = [...text.matchAll(/[\da-fA-F]{13,}/g)];
  const pairs =
    (run: string, start: number): Said =>
    (put) => {
      for (let i = 0; i + 1 < run.length; i++) {
        const high = DIGITS[run.charCodeAt(i)] as number;
        const low = DIGITS[run.charCodeAt(i + 1)] as number;
        if (high < 0 || low < 0) continue;
        put(high * 16 + low, start + i++);
      }
    };
  return decoded(piece, 'hexadecimal', [
    runs.map(({ 0: run, index }) => pairs(run, index)),
    // A run may have been joined to half a byte before it.
    solid.map(({ 0: run, index }) => pairs(run.slice(1), index + 1)),
  ]);
}

const DIGITS = new Int8Array(256).fill(-1);
for (let digit = 0; digit < 16; digit++) {
  const sign = digit.toString(16);
  DIGITS[sign.charCodeAt(0)] = digit;
  DIGITS[sign.toUpperCase().charCodeAt(0)] = digit;
}

type Said = (put: (byte: number, origin: number) => void) => void;

/** @param ways for each way to begin, what the runs say */
function decoded(piece: Piece, name: string, ways: readonly (readonly Said[])[]): Decoded {
  const all: Piece[] = [];
  const runs: Piece[] = [];
  for (const way of ways) {
    let bytes = new Uint8Array(1024);
    let length = 0;
    const put = (byte: number): void => {
      if (length === bytes.length) {
        const larger = new Uint8Array(length * 2);
        larger.set(bytes);
        bytes = larger;
      }
      bytes[length++] = byte;
    };
    const begins: number[] = [];
    const said: Said[] = [];
    for (const say of way) {
      const start = length;
      say(put);
      if (length === start) continue;
      begins.push(start);
      said.push(say);
      if (length - start >= SHORTEST_FILE) {
        const own = bytes.slice(start, length);
        runs.push(inside(piece, name, own, (offset) => originIn(say, offset), 'text'));
      }
      for (const byte of APART) put(byte);
    }
    if (length === 0) continue;
    const from = (offset: number): number => {
      const run = lastUpTo(begins, offset);
      return originIn(said[run] as Said, offset - (begins[run] as number));
    };
    all.push(inside(piece, name, bytes.subarray(0, length), from, 'guessed'));
  }
  return { all, runs };
}

/** The byte that a byte of a run comes from, or the last one does: said anew, as it is asked for where something is found alone. */
function originIn(say: Said, offset: number): number {
  let count = 0;
  let found = 0;
  say((_, origin) => {
    if (count++ <= offset) found = origin;
  });
  return found;
}

/** More than may stand within a name, and an even number of bytes, for UTF-16. */
const APART = [0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c];
