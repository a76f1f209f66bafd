// Choices of the method and codes of file formats: not clinical numbers.

import { gatherer, inside, type Piece } from './piece.js';

/** Text may be escaped twice, as a link in a page is. */
const MOST_ROUNDS = 3;

/**
 * A text as it reads once its escapes are resolved: HTML entities and numeric references, percent-encoding, `\u`, `\x`,
 * octal and CSS escapes, quoted-printable, `#` escapes of PDF names. Each round that changes something gives a piece.
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

/** 1 for a byte that may begin an escape. */
const MARKS = new Uint8Array(256);
for (const mark of [AMPERSAND, PERCENT, BACKSLASH, EQUALS, HASH]) MARKS[mark] = 1;

function resolved(piece: Piece): Piece | null {
  const { bytes } = piece;
  let out: ReturnType<typeof gatherer> | null = null;
  // Up to here everything is taken over.
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
    out ??= gatherer(bytes.length);
    out.copy(bytes, taken, at);
    if (typeof found.said === 'number') out.put(found.said, at);
    else out.text(found.said, at);
    at += found.length;
    taken = at;
  }
  if (out === null) return null;
  out.copy(bytes, taken, bytes.length);
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

/** `%4A`, `=4A`, `#4A`; `=` before a line break joins two lines. */
function pairAt(bytes: Uint8Array, at: number, mark: number): Escape | null {
  const pair = ascii(bytes, at + 1, at + 3);
  if (/^[\da-f]{2}$/i.test(pair)) return { said: Number.parseInt(pair, 16), length: 3 };
  if (mark !== EQUALS || !/^\r?\n/.test(pair)) return null;
  return { said: '\u00ad', length: pair[0] === '\r' ? 3 : 2 };
}
