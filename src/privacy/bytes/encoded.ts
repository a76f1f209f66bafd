// Choices of the method and codes of file formats: not clinical numbers.

import { APART, inside, lastUpTo, type Piece } from './piece.js';

/** Shorter runs say less than four letters. */
const SHORTEST_BASE64 = 8;
const SHORTEST_CONTINUED = 4;
const FEWEST_PAIRS = 6;
const SHORTEST_SOLID = 13;
/** Shorter runs hold no file of their own. */
const SHORTEST_FILE = 32;

/** What encoded runs of a text say. */
export interface Decoded {
  /** All runs together, each apart from the next; one piece for each way to begin. */
  readonly all: readonly Piece[];
  /** Runs that are files. */
  readonly files: readonly Piece[];
}

/** Whether decoded bytes are a file that can be opened. */
type IsFile = (bytes: Uint8Array) => boolean;

/** Where encoded runs begin and end. */
interface Runs {
  readonly begins: readonly number[];
  readonly ends: readonly number[];
}

/**
 * Runs without those that an earlier one has said byte for byte, as pages say the same names of attributes over and over.
 * What may hold a file is kept, and so are repetitions of the first run, which stands otherwise: nothing is before it.
 */
function distinct(bytes: Uint8Array, { begins, ends }: Runs): Runs {
  const kept = { begins: [] as number[], ends: [] as number[] };
  // Places among those that are kept, by what their bytes come to.
  const known = new Int32Array(2 ** Math.ceil(Math.log2(2 * begins.length + 2))).fill(-1);
  const isKnown = (begin: number, end: number): boolean => {
    let hash = end - begin;
    for (let at = begin; at < end; at++) hash = Math.imul(hash ^ (bytes[at] as number), 0x01000193);
    for (let slot = hash ^ (hash >>> 15); ; slot++) {
      const place = known[slot & (known.length - 1)] as number;
      if (place < 0) {
        known[slot & (known.length - 1)] = kept.begins.length;
        return false;
      }
      const other = kept.begins[place] as number;
      if ((kept.ends[place] as number) - other !== end - begin) continue;
      let same = 0;
      while (same < end - begin && bytes[other + same] === bytes[begin + same]) same++;
      if (same === end - begin) return true;
    }
  };
  for (let run = 0; run < begins.length; run++) {
    const [begin, end] = [begins[run] as number, ends[run] as number];
    if (run > 0 && end - begin < SHORTEST_FILE && isKnown(begin, end)) continue;
    kept.begins.push(begin);
    kept.ends.push(end);
  }
  return kept;
}

/** One way to read a run. */
interface Code {
  /** Writes what a run says and gives where it ends. */
  readonly say: (
    source: Uint8Array,
    begin: number,
    end: number,
    out: Uint8Array,
    to: number,
  ) => number;
  /** The byte of the source in which the byte at an offset of what is said begins, or the last byte does. */
  readonly origin: (source: Uint8Array, begin: number, end: number, offset: number) => number;
}

/**
 * What runs of base64 (also as in addresses, also over several lines) say, and runs of hexadecimal digits, also with
 * blanks, colons, commas or `0x` and `\x` between the pairs. A run of base64 may begin anywhere in the encoded bytes, so
 * that each of the four beginnings is tried.
 */
export function fromRuns(piece: Piece, isFile: IsFile): Decoded[] {
  const { bytes } = piece;
  const all = base64Runs(bytes);
  const runs = distinct(bytes, all);
  return [
    decoded(
      piece,
      'base64',
      BASE64.map((code) => ({ runs, code })),
      isFile,
    ),
    decoded(
      piece,
      'hexadecimal',
      [
        { runs: pairRuns(bytes), code: PAIRS },
        { runs: solidRuns(bytes, all), code: PAIRS },
      ],
      isFile,
    ),
  ];
}

const VALUES = new Int8Array(256).fill(-1);
[...'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/'].forEach((sign, value) => {
  VALUES[sign.charCodeAt(0)] = value;
});
VALUES['-'.charCodeAt(0)] = 62;
VALUES['_'.charCodeAt(0)] = 63;

function base64Runs(bytes: Uint8Array): Runs {
  const begins: number[] = [];
  const ends: number[] = [];
  const { length } = bytes;
  const signsFrom = (from: number): number => {
    let at = from;
    while (at < length && (VALUES[bytes[at] as number] as number) >= 0) at++;
    return at;
  };
  for (let at = 0; at < length; at++) {
    if ((VALUES[bytes[at] as number] as number) < 0) continue;
    const begin = at;
    let end = signsFrom(at);
    for (;;) {
      const next = lineAfter(bytes, end);
      if (next < 0) break;
      const stop = signsFrom(next);
      if (stop - next < SHORTEST_CONTINUED) break;
      end = stop;
    }
    if (end - begin >= SHORTEST_BASE64) {
      begins.push(begin);
      ends.push(end);
    }
    at = end;
  }
  return { begins, ends };
}

/** Where a text goes on after a line break and blanks, also one behind a backslash; -1 where no line breaks. */
function lineAfter(bytes: Uint8Array, end: number): number {
  let at = end;
  if (bytes[at] === 0x5c) at++;
  if (bytes[at] === 0x0d) at++;
  if (bytes[at] !== 0x0a) return -1;
  at++;
  while (bytes[at] === 0x20 || bytes[at] === 0x09) at++;
  return at;
}

/** Base64 that begins with the first, second, third or fourth sign of a run. */
const BASE64: readonly Code[] = [0, 1, 2, 3].map((phase) => ({
  say: (source, begin, end, out, to) => {
    let skip = phase;
    let bits = 0;
    let held = 0;
    let length = to;
    for (let at = begin; at < end; at++) {
      const value = VALUES[source[at] as number] as number;
      if (value < 0 || skip-- > 0) continue;
      bits = (bits << 6) | value;
      held += 6;
      if (held < 8) continue;
      held -= 8;
      out[length++] = bits >> held;
    }
    return length;
  },
  origin: (source, begin, end, offset) => {
    const signs: number[] = [];
    for (let at = begin; at < end; at++) {
      if ((VALUES[source[at] as number] as number) >= 0) signs.push(at);
    }
    const last = Math.floor(((signs.length - phase) * 6) / 8) - 1;
    return signs[phase + Math.floor((Math.min(offset, last) * 8) / 6)] as number;
  },
}));

const DIGITS = new Int8Array(256).fill(-1);
for (let digit = 0; digit < 16; digit++) {
  const sign = digit.toString(16);
  DIGITS[sign.charCodeAt(0)] = digit;
  DIGITS[sign.toUpperCase().charCodeAt(0)] = digit;
}
const isDigit = (byte: number | undefined): boolean => (DIGITS[byte ?? 0] as number) >= 0;

function pairRuns(bytes: Uint8Array): Runs {
  const begins: number[] = [];
  const ends: number[] = [];
  for (let at = 0; at + 2 * FEWEST_PAIRS <= bytes.length; at++) {
    if (!isDigit(bytes[at])) continue;
    if (!isDigit(bytes[at + 1])) {
      // Nor does a pair begin with that.
      at++;
      continue;
    }
    let pairs = 0;
    let end = at;
    while (isDigit(bytes[end]) && isDigit(bytes[end + 1])) {
      end = separated(bytes, end + 2);
      pairs++;
    }
    if (pairs < FEWEST_PAIRS) continue;
    begins.push(at);
    ends.push(end);
    at = end - 1;
  }
  return { begins, ends };
}

/** Where the next pair may begin: behind `\x`, `0x` with a comma or semicolon and a blank before it, one sign, a line's end. */
function separated(bytes: Uint8Array, from: number): number {
  const first = bytes[from];
  if (first === 0x5c && bytes[from + 1] === 0x78) return from + 2;
  let at = from;
  if (first === 0x2c || first === 0x3b) at++;
  if (bytes[at] === 0x20) at++;
  if (bytes[at] === 0x30 && bytes[at + 1] === 0x78) return at + 2;
  if (first === 0x20 || first === 0x3a || first === 0x2c || first === 0x2d) return from + 1;
  if (first === 0x0a) return from + 1;
  return first === 0x0d && bytes[from + 1] === 0x0a ? from + 2 : from;
}

/** Digits in a row without their first one: a run may have been joined to half a byte before it. All stand in base64. */
function solidRuns(bytes: Uint8Array, within: Runs): Runs {
  const begins: number[] = [];
  const ends: number[] = [];
  within.begins.forEach((begin, place) => {
    const end = within.ends[place] as number;
    if (end - begin < SHORTEST_SOLID) return;
    let run = 0;
    for (let at = begin; at <= end; at++) {
      if (at < end && (DIGITS[bytes[at] as number] as number) >= 0) run++;
      else {
        if (run >= SHORTEST_SOLID) {
          begins.push(at - run + 1);
          ends.push(at);
        }
        run = 0;
      }
    }
  });
  return { begins, ends };
}

const PAIRS: Code = {
  say: (source, begin, end, out, to) => {
    let length = to;
    for (let at = begin; at + 1 < end; at++) {
      const high = DIGITS[source[at] as number] as number;
      const low = DIGITS[source[at + 1] as number] as number;
      if (high < 0 || low < 0) continue;
      out[length++] = high * 16 + low;
      at++;
    }
    return length;
  },
  origin: (source, begin, end, offset) => {
    let count = 0;
    let found = begin;
    for (let at = begin; at + 1 < end && count <= offset; at++) {
      if (!isDigit(source[at]) || !isDigit(source[at + 1])) continue;
      found = at++;
      count++;
    }
    return found;
  },
};

/** @param ways each way to begin: the runs, and how they read */
function decoded(
  piece: Piece,
  name: string,
  ways: readonly { readonly runs: Runs; readonly code: Code }[],
  isFile: IsFile,
): Decoded {
  const all: Piece[] = [];
  const files: Piece[] = [];
  for (const { runs, code } of ways) {
    const { begins, ends } = runs;
    const room = begins.reduce(
      (sum, begin, run) => sum + (ends[run] as number) - begin + APART.length,
      0,
    );
    if (room === 0) continue;
    const bytes = new Uint8Array(room);
    let length = 0;
    // Where what each run says begins, and which run it is.
    const starts: number[] = [];
    const which: number[] = [];
    const originIn = (run: number, offset: number): number =>
      code.origin(piece.bytes, begins[run] as number, ends[run] as number, offset);
    for (let run = 0; run < begins.length; run++) {
      const start = length;
      length = code.say(piece.bytes, begins[run] as number, ends[run] as number, bytes, start);
      if (length === start) continue;
      starts.push(start);
      which.push(run);
      const own = bytes.subarray(start, length);
      if (own.length >= SHORTEST_FILE && isFile(own)) {
        files.push(inside(piece, name, own, (offset) => originIn(run, offset), 'text'));
      }
      for (let i = 0; i < APART.length; i++) bytes[length++] = APART[i] as number;
    }
    if (length === 0) continue;
    const from = (offset: number): number => {
      const place = lastUpTo(starts, offset);
      return originIn(which[place] as number, offset - (starts[place] as number));
    };
    all.push(inside(piece, name, bytes.subarray(0, length), from, 'guessed'));
  }
  return { all, files };
}
