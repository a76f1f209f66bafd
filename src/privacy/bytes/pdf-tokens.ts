// Choices of the method and codes of file formats: not clinical numbers.

import { latin } from './piece.js';

/** A piece of PDF syntax (ISO 32000-1, 7.2 and 7.3). */
export type Token =
  | { readonly kind: 'string'; readonly bytes: Uint8Array; readonly at: number }
  | { readonly kind: 'name'; readonly text: string; readonly at: number }
  | { readonly kind: 'number'; readonly value: number; readonly at: number }
  | { readonly kind: 'word'; readonly text: string; readonly at: number };

/** The tokens of a stretch of PDF syntax; brackets are words. */
export function* tokensIn(bytes: Uint8Array): Generator<Token> {
  const text = latin(bytes);
  const plain = /[^\s()<>[\]{}/%]+/y;
  for (let at = 0; at < text.length; ) {
    const sign = text[at] as string;
    if (sign <= ' ') at++;
    else if (sign === '%') {
      // A comment: passed over, to the end of its line.
      while (at < text.length && text[at] !== '\n' && text[at] !== '\r') at++;
    } else if (sign === '(') {
      const { said, end } = literal(bytes, at);
      yield { kind: 'string', bytes: said, at };
      at = end;
    } else if (sign === '<' && text[at + 1] !== '<') {
      const end = text.indexOf('>', at);
      const stop = end < 0 ? text.length : end;
      yield { kind: 'string', bytes: hexBytes(text.slice(at + 1, stop)), at };
      at = stop + 1;
    } else if (sign === '/') {
      plain.lastIndex = at + 1;
      const name = plain.exec(text)?.[0] ?? '';
      yield { kind: 'name', text: unhashed(name), at };
      at += 1 + name.length;
    } else {
      plain.lastIndex = at;
      const word =
        plain.exec(text)?.[0] ??
        (/^(<<|>>)/.test(text.slice(at, at + 2)) ? text.slice(at, at + 2) : sign);
      const value = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(word) ? Number(word) : null;
      yield value === null ? { kind: 'word', text: word, at } : { kind: 'number', value, at };
      at += word.length;
    }
  }
}

const unhashed = (name: string): string =>
  name.replace(/#([\da-f]{2})/gi, (_, hex) => String.fromCharCode(Number.parseInt(hex, 16)));

export function hexBytes(text: string): Uint8Array {
  const digits = text.replace(/[^\da-f]/gi, '');
  return Uint8Array.from(digits.match(/..?/g) ?? [], (pair) =>
    Number.parseInt(pair.padEnd(2, '0'), 16),
  );
}

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
