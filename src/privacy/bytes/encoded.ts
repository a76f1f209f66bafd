// Choices of the method and codes of file formats: not clinical numbers.

import { gatherer, inside, latin, type Piece } from './piece.js';

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

/**
 * What runs of base64 (also as in addresses, also over several lines) say. A run may begin anywhere in the encoded bytes,
 * so that each of the four beginnings is tried.
 */
export function fromBase64(piece: Piece): Decoded {
  const text = latin(piece.bytes);
  const found = text.matchAll(/[A-Za-z0-9+/_-]+(?:\\?\r?\n[ \t]*[A-Za-z0-9+/_-]{4,})*/g);
  const runs = [...found].filter(([run]) => run.length >= SHORTEST_BASE64);
  return decoded(
    piece,
    'base64',
    [0, 1, 2, 3].map((phase) =>
      runs.map(({ 0: run, index }) => (put) => {
        let bits = 0;
        let held = 0;
        let skipped = 0;
        // The sign in which the byte under way begins.
        let begins = index;
        for (let i = 0; i < run.length; i++) {
          const value = VALUES[run.charCodeAt(i)] as number;
          if (value < 0 || skipped++ < phase) continue;
          bits = ((bits << 6) | value) & 0xffffff;
          held += 6;
          if (held === 6) begins = index + i;
          if (held < 8) continue;
          held -= 8;
          put((bits >> held) & 0xff, begins);
          begins = index + i;
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
      for (const { 0: pair, index } of run.matchAll(/[\da-fA-F]{2}/g)) {
        put(Number.parseInt(pair, 16), start + index);
      }
    };
  return decoded(piece, 'hexadecimal', [
    runs.map(({ 0: run, index }) => pairs(run, index)),
    // A run may have been joined to half a byte before it.
    solid.map(({ 0: run, index }) => pairs(run.slice(1), index + 1)),
  ]);
}

type Said = (put: (byte: number, origin: number) => void) => void;

/** @param ways for each way to begin, what the runs say */
function decoded(piece: Piece, name: string, ways: readonly (readonly Said[])[]): Decoded {
  const all: Piece[] = [];
  const runs: Piece[] = [];
  for (const way of ways) {
    const together = gatherer();
    for (const say of way) {
      const alone = gatherer(64);
      let last = 0;
      say((byte, origin) => {
        alone.put(byte, origin);
        last = origin;
      });
      if (alone.length() === 0) continue;
      const { bytes, from } = alone.done();
      for (let i = 0; i < bytes.length; i++) together.put(bytes[i] as number, from(i));
      for (const byte of APART) together.put(byte, last);
      if (bytes.length >= SHORTEST_FILE) runs.push(inside(piece, name, bytes, from, 'text'));
    }
    if (together.length() === 0) continue;
    const { bytes, from } = together.done();
    all.push(inside(piece, name, bytes, from, 'guessed'));
  }
  return { all, runs };
}

/** More than may stand within a name, and an even number of bytes, for UTF-16. */
const APART = [0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c, 0x0a, 0x7c];
