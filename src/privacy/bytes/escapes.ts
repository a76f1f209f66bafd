// Choices of the method and codes of file formats: not clinical numbers.

import { nearbyFrom, nearbyTo, skipFar } from './nearby.js';
import { Gatherer, inside, type Piece } from './piece.js';

/** Text may be escaped twice, as a link in a page is. */
const MOST_ROUNDS = 3;

/**
 * A text as it reads once its escapes are resolved: HTML entities and numeric references, percent-encoding, `\u`, `\x`,
 * octal and CSS escapes, quoted-printable, `#` escapes of PDF names. Each round that changes something gives a piece of
 * what stands near the changes: the rest reads as it did before. See `nearby.ts`.
 */
export function unescaped(piece: Piece): Piece[] {
  const pieces: Piece[] = [];
  let last = piece;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const next = resolved(last);
    if (next === null) break;
    pieces.push(next);
    last = next;
  }
  return pieces;
}

const AMPERSAND = 0x26;
const PERCENT = 0x25;
const BACKSLASH = 0x5c;
const EQUALS = 0x3d;
const HASH = 0x23;
const SPACE = 0x20;
const SLASH = 0x2f;

/** 1 for a byte that may begin an escape. */
const MARKS = new Uint8Array(256);
for (const mark of [AMPERSAND, PERCENT, BACKSLASH, EQUALS, HASH]) MARKS[mark] = 1;

function resolved(piece: Piece): Piece | null {
  const { bytes } = piece;
  let out: Gatherer | null = null;
  // Up to here everything near an escape is taken over.
  let taken = 0;
  for (let at = 0; at < bytes.length; ) {
    const byte = bytes[at] as number;
    if (MARKS[byte] === 0) {
      at++;
      continue;
    }
    const found =
      byte === AMPERSAND
        ? entityAt(bytes, at)
        : byte === BACKSLASH
          ? backslashAt(bytes, at)
          : pairAt(bytes, at, byte);
    if (found === null) {
      at++;
      continue;
    }
    if (out === null) {
      out = new Gatherer();
      taken = nearbyFrom(bytes, 0, at);
    } else taken = skipFar(out, bytes, taken, at);
    out.copy(bytes, taken, at);
    if (typeof found.said === 'number') out.put(found.said, at);
    else out.text(found.said, at);
    at += found.length;
    taken = at;
  }
  if (out === null) return null;
  out.copy(bytes, taken, nearbyTo(bytes, taken, bytes.length));
  const { bytes: plain, from } = out.done();
  return inside(piece, 'escapes resolved', plain, from, piece.sort, false);
}

/** A text or a single byte, and how many bytes of the file say it. */
interface Escape {
  readonly said: string | number;
  readonly length: number;
}

const ascii = (bytes: Uint8Array, from: number, to: number): string =>
  String.fromCharCode(...bytes.subarray(from, Math.min(to, bytes.length)));

const character = (code: number): string | null =>
  code > 0 && code <= 0x10ffff && !(code >= 0xd800 && code < 0xe000)
    ? String.fromCodePoint(code)
    : null;

function entityAt(bytes: Uint8Array, at: number): Escape | null {
  if (bytes[at + 1] !== HASH && !isLetter(bytes[at + 1])) return null;
  const [whole, decimal, hex, name] =
    /^&(?:#(\d{1,8});?|#x([\da-f]{1,7});?|([a-z]+\d*);)/i.exec(ascii(bytes, at, at + 14)) ?? [];
  if (whole === undefined) return null;
  const said =
    name !== undefined
      ? (NAMED[name.toLowerCase()] ?? accented(name))
      : character(decimal !== undefined ? Number(decimal) : Number.parseInt(hex as string, 16));
  return said == null ? null : { said, length: whole.length };
}

const NAMED: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  nbsp: '\u00a0',
  shy: '\u00ad',
  zwnj: '\u200c',
  zwj: '\u200d',
  ensp: '\u2002',
  emsp: '\u2003',
  thinsp: '\u2009',
  ndash: '–',
  mdash: '—',
  rsquo: '’',
  lsquo: '‘',
  aelig: 'æ',
  oelig: 'œ',
  szlig: 'ß',
  oslash: 'ø',
  eth: 'ð',
  thorn: 'þ',
  period: '.',
  commat: '@',
  hyphen: '-',
  sol: '/',
};

/** `eacute` to `e`: the letter of an accented letter's entity, as accents do not count. */
const accented = (name: string): string | null =>
  /^([a-z])(?:acute|grave|circ|tilde|uml|cedil|ring|caron|breve|macr|ogon|dot|strok)$/i.exec(
    name,
  )?.[1] ?? null;

function backslashAt(bytes: Uint8Array, at: number): Escape | null {
  const next = bytes[at + 1] ?? 0;
  if (BEHIND_BACKSLASH[next] === 0) return null;
  const ahead = ascii(bytes, at, at + 14);
  const unit = /^(\\u([\da-f]{4}))(\\u([\da-f]{4}))?/i.exec(ahead);
  if (unit) {
    const [, first, high, , low] = unit as unknown as [string, string, string, string?, string?];
    const pair = low === undefined ? null : surrogates(high, low);
    if (pair !== null) return { said: pair, length: 12 };
    const said = character(Number.parseInt(high, 16));
    return said === null ? null : { said, length: first.length };
  }
  const [long, point] = /^\\u\{([\da-f]{1,6})\}/i.exec(ahead) ?? [];
  if (long !== undefined) {
    const said = character(Number.parseInt(point as string, 16));
    return said === null ? null : { said, length: long.length };
  }
  const [byteSaid, byte] = /^\\x([\da-f]{2})/i.exec(ahead) ?? [];
  if (byteSaid !== undefined) return { said: Number.parseInt(byte as string, 16), length: 4 };
  // Not what prints nothing: `\0061` is a letter of a style sheet.
  const [octalSaid, octal] = /^\\([1-3][0-7]{2}|0[4-7][0-7])/.exec(ahead) ?? [];
  if (octalSaid !== undefined) return { said: Number.parseInt(octal as string, 8), length: 4 };
  const [style, hex] = /^\\([\da-f]{2,6})\s?/i.exec(ahead) ?? [];
  if (style !== undefined) {
    const said = character(Number.parseInt(hex as string, 16));
    if (said !== null) return { said, length: style.length };
  }
  if (/^\\[nrtbfvNRTBFV,;]/.test(ahead)) return { said: SPACE, length: 2 };
  if (/^\\\r?\n/.test(ahead)) return { said: '\u00ad', length: ahead[1] === '\r' ? 3 : 2 };
  return null;
}

function surrogates(high: string, low: string): string | null {
  const [first, second] = [Number.parseInt(high, 16), Number.parseInt(low, 16)];
  if (first < 0xd800 || first > 0xdbff || second < 0xdc00 || second > 0xdfff) return null;
  return String.fromCharCode(first, second);
}

/** `%4A`, `=4A`, and `#4A` within a name of PDF; `=` before a line break joins two lines. */
function pairAt(bytes: Uint8Array, at: number, mark: number): Escape | null {
  const [high, low] = [digit(bytes[at + 1]), digit(bytes[at + 2])];
  if (high >= 0 && low >= 0) {
    return mark === HASH && !isInName(bytes, at) ? null : { said: high * 16 + low, length: 3 };
  }
  if (mark !== EQUALS) return null;
  if (bytes[at + 1] === 0x0a) return { said: '\u00ad', length: 2 };
  return bytes[at + 1] === 0x0d && bytes[at + 2] === 0x0a ? { said: '\u00ad', length: 3 } : null;
}

/** Bytes of a name of PDF at most (ISO 32000-1, Annex C; from memory, unverified). */
const LONGEST_NAME = 127;

/** Whether a name of PDF is under way: a slash, and nothing that ends a name. A colour of a page, `#adface`, is in none. */
function isInName(bytes: Uint8Array, at: number): boolean {
  for (let before = at - 1; before >= Math.max(0, at - LONGEST_NAME); before--) {
    const byte = bytes[before] as number;
    if (byte === SLASH) return true;
    if (ENDS_NAME[byte] === 1) return false;
  }
  return false;
}

/** 1 for what ends a name, or begins no name that holds an escape. */
const ENDS_NAME = new Uint8Array(256);
for (let byte = 0; byte <= SPACE; byte++) ENDS_NAME[byte] = 1;
for (const sign of '()<>[]{}%"') ENDS_NAME[sign.charCodeAt(0)] = 1;

const digit = (byte: number | undefined): number => {
  if (byte === undefined) return -1;
  if (byte >= 0x30 && byte <= 0x39) return byte - 0x30;
  const small = byte | 0x20;
  return small >= 0x61 && small <= 0x66 ? small - 0x57 : -1;
};

const isLetter = (byte: number | undefined): boolean => {
  const small = (byte ?? 0) | 0x20;
  return small >= 0x61 && small <= 0x7a;
};

/** 1 for a byte that may stand behind a backslash in an escape. */
const BEHIND_BACKSLASH = new Uint8Array(256);
for (const sign of 'uxnrtbfvUXNRTBFV,;\r\n0123456789abcdefABCDEF') {
  BEHIND_BACKSLASH[sign.charCodeAt(0)] = 1;
}
