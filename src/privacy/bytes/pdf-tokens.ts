// Choices of the method and codes of file formats: not clinical numbers.

import { latin } from './piece.js';

/** A piece of PDF syntax (ISO 32000-1, 7.2 and 7.3). */
export type Token =
  | { readonly kind: 'string'; readonly bytes: Uint8Array; readonly at: number }
  | { readonly kind: 'name'; readonly text: string; readonly at: number }
  | { readonly kind: 'number'; readonly value: number; readonly at: number }
  | { readonly kind: 'word'; readonly text: string; readonly at: number };

/**
 * The tokens of a stretch of PDF syntax that say something: strings, names, brackets, and of the rest what follows these:
 * a word after a string or a name, numbers within square brackets. Asked for several times, they are found once.
 */
export function tokensIn(bytes: Uint8Array): readonly Token[] {
  const before = known.get(bytes);
  if (before) return before;
  const tokens = found(bytes);
  known.set(bytes, tokens);
  return tokens;
}

const known = new WeakMap<Uint8Array, readonly Token[]>();

function found(bytes: Uint8Array): Token[] {
  const tokens: Token[] = [];
  const text = latin(bytes);
  const { length } = bytes;
  let within = 0;
  // A drawing is a long row of numbers and words without a string: one of its words is enough.
  let wordless = true;
  for (let at = 0; at < length; ) {
    const sign = bytes[at] as number;
    if (sign <= 0x20) at++;
    else if (sign === PERCENT) {
      // A comment: passed over, to the end of its line.
      while (at < length && bytes[at] !== 0x0a && bytes[at] !== 0x0d) at++;
    } else if (sign === 0x28) {
      const { said, end } = literal(bytes, at);
      tokens.push({ kind: 'string', bytes: said, at });
      wordless = true;
      at = end;
    } else if (sign === LESS && bytes[at + 1] !== LESS) {
      const end = bytes.indexOf(MORE, at);
      const stop = end < 0 ? length : end;
      tokens.push({ kind: 'string', bytes: hexBytes(bytes, at + 1, stop), at });
      wordless = true;
      at = stop + 1;
    } else if (sign === SLASH) {
      const end = plainFrom(bytes, at + 1);
      tokens.push({ kind: 'name', text: unhashed(text.slice(at + 1, end)), at });
      wordless = true;
      at = end;
    } else {
      const end = plainFrom(bytes, at);
      if (end === at) {
        const twice = bytes[at + 1] === sign && (sign === LESS || sign === MORE);
        if (sign === OPENS) within++;
        if (sign === CLOSES) within = Math.max(0, within - 1);
        tokens.push({ kind: 'word', text: text.slice(at, at + (twice ? 2 : 1)), at });
        at += twice ? 2 : 1;
        continue;
      }
      if (within === 0 && !wordless) {
        at = end;
        while (at < length && SAYS[bytes[at] as number] === 0) at++;
        continue;
      }
      const number = mayBeNumber(sign) && NUMBER.test(text.slice(at, end));
      if (number && within > 0) {
        tokens.push({ kind: 'number', value: Number(text.slice(at, end)), at });
      } else if (!number && wordless) {
        tokens.push({ kind: 'word', text: text.slice(at, end), at });
        wordless = false;
      }
      at = end;
    }
  }
  return tokens;
}

const PERCENT = 0x25;
const SLASH = 0x2f;
const LESS = 0x3c;
const MORE = 0x3e;
const OPENS = 0x5b;
const CLOSES = 0x5d;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)$/;

/** 1 for white space and the signs that end a name, a number or a word. */
const ENDS = new Uint8Array(256);
for (const sign of '\t\n\v\f\r \u00a0()<>[]{}/%') ENDS[sign.charCodeAt(0)] = 1;

/** 1 for what may begin something that says more than numbers and words do. */
const SAYS = Uint8Array.from(ENDS, (ends, byte) => (byte > 0x20 ? ends : 0));

function plainFrom(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && ENDS[bytes[at] as number] === 0) at++;
  return at;
}

/** A digit, a sign or a stop comes first. */
const mayBeNumber = (first: number): boolean =>
  (first >= 0x30 && first <= 0x39) || first === 0x2b || first === 0x2d || first === 0x2e;

const unhashed = (name: string): string =>
  !name.includes('#')
    ? name
    : name.replace(/#([\da-f]{2})/gi, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)));

/** What hexadecimal digits say from one byte up to another; whatever is none between them is passed over. */
export function hexBytes(source: Uint8Array, from: number, to: number): Uint8Array {
  const bytes = new Uint8Array((to - from + 1) >> 1);
  let digits = 0;
  for (let at = from; at < to; at++) {
    const value = DIGITS[source[at] as number] as number;
    if (value < 0) continue;
    const place = digits >> 1;
    bytes[place] = digits % 2 === 0 ? value << 4 : (bytes[place] as number) | value;
    digits++;
  }
  const size = (digits + 1) >> 1;
  return size === bytes.length ? bytes : bytes.subarray(0, size);
}

const DIGITS = Int8Array.from({ length: 256 }, (_, byte) => {
  const sign = String.fromCharCode(byte);
  return /[\da-f]/i.test(sign) ? Number.parseInt(sign, 16) : -1;
});

const ESCAPED: Readonly<Record<string, number>> = { n: 10, r: 13, t: 9, b: 8, f: 12 };

function literal(bytes: Uint8Array, from: number): { said: Uint8Array; end: number } {
  const said: number[] = [];
  let depth = 0;
  let at = from;
  for (; at < bytes.length; at++) {
    const byte = bytes[at] as number;
    if (byte === 0x5c) {
      const next = String.fromCharCode(bytes[++at] ?? 0);
      const octal = /^[0-7]{1,3}/.exec(String.fromCharCode(...bytes.subarray(at, at + 3)))?.[0];
      if (octal !== undefined) {
        said.push(Number.parseInt(octal, 8) & 0xff);
        at += octal.length - 1;
      } else if (next === '\r') {
        if (bytes[at + 1] === 10) at++;
      } else if (next !== '\n') said.push(ESCAPED[next] ?? next.charCodeAt(0));
      continue;
    }
    if (byte === 0x28 && depth++ === 0) continue;
    if (byte === 0x29 && --depth === 0) {
      at++;
      break;
    }
    said.push(byte);
  }
  return { said: Uint8Array.from(said), end: at };
}
