import { gatherer, inside, latin, type Piece } from './piece.js';

/** Shorter runs say less than four letters. */
const SHORTEST_BASE64 = 8;
const SHORTEST_HEX = 12;

/**
 * What runs of base64 (also as in addresses, also over several lines) say. A run may begin anywhere in the encoded bytes,
 * so that each of the four beginnings is tried.
 */
export function fromBase64(piece: Piece): Piece[] {
  const text = latin(piece.bytes);
  const pieces: Piece[] = [];
  for (const run of text.matchAll(/[A-Za-z0-9+/_-]+(?:\\?\r?\n[ \t]*[A-Za-z0-9+/_-]{4,})*/g)) {
    if (run[0].length < SHORTEST_BASE64) continue;
    const signs: number[] = [];
    const places: number[] = [];
    for (let i = 0; i < run[0].length; i++) {
      const value = VALUES[run[0].charCodeAt(i)] as number;
      if (value < 0) continue;
      signs.push(value);
      places.push(run.index + i);
    }
    for (let phase = 0; phase < 4; phase++) {
      const out = gatherer(signs.length);
      for (let i = phase; i + 1 < signs.length; i += 4) {
        const [a, b, c = 0, d = 0] = signs.slice(i, i + 4) as [number, number, number?, number?];
        const bits = (a << 18) | (b << 12) | (c << 6) | d;
        const has = Math.min(3, signs.length - i - 1);
        for (let k = 0; k < has; k++)
          out.put((bits >> (16 - 8 * k)) & 0xff, places[i + k] as number);
      }
      if (out.length() === 0) continue;
      const { bytes, from } = out.done();
      pieces.push(inside(piece, 'base64', bytes, from, 'guessed'));
    }
  }
  return pieces;
}

const VALUES = new Int8Array(256).fill(-1);
[...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'].forEach((sign, value) => {
  VALUES[sign.charCodeAt(0)] = value;
});
VALUES['-'.charCodeAt(0)] = 62;
VALUES['_'.charCodeAt(0)] = 63;

/** What runs of hexadecimal digits say, also with blanks, colons, commas or `0x` and `\x` between the pairs. */
export function fromHex(piece: Piece): Piece[] {
  const text = latin(piece.bytes);
  const pieces: Piece[] = [];
  const runs = /(?:[\da-fA-F]{2}(?:\\x|[,;]? ?0x|[ :,-]|\r?\n)?){6,}/g;
  for (const run of text.matchAll(/[\da-fA-F]{12,}/g)) {
    // An odd run may have lost its first half byte to the text before it.
    for (const phase of [0, 1]) pieces.push(hexPiece(piece, run[0], run.index, phase));
  }
  for (const run of text.matchAll(runs)) {
    if (run[0].length < SHORTEST_HEX || /^[\da-fA-F]+$/.test(run[0])) continue;
    pieces.push(hexPiece(piece, run[0], run.index, 0));
  }
  return pieces;
}

function hexPiece(piece: Piece, run: string, start: number, phase: number): Piece {
  const out = gatherer(run.length);
  for (const pair of run.slice(phase).matchAll(/[\da-fA-F]{2}/g)) {
    out.put(Number.parseInt(pair[0], 16), start + phase + pair.index);
  }
  if (out.length() === 0) out.put(0x20, start);
  const { bytes, from } = out.done();
  return inside(piece, 'hexadecimal', bytes, from, 'guessed');
}
