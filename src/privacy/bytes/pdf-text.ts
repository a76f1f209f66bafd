// Choices of the method and codes of file formats: not clinical numbers.

import { tokensIn } from './pdf-tokens.js';

/** How a font's codes read: bytes a code, and the text of each (ISO 32000-1, 9.10.3). */
export interface FontText {
  readonly width: number;
  readonly texts: ReadonlyMap<number, string>;
}

const numberOf = (bytes: Uint8Array, from = 0, to = bytes.length): number => {
  let sum = 0;
  for (let i = from; i < to; i++) sum = sum * 256 + (bytes[i] as number);
  return sum;
};

/** Big-endian UTF-16, as text stands in PDF. */
export function utf16(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i + 1 < bytes.length; i += 2) {
    text += String.fromCharCode(((bytes[i] as number) << 8) | (bytes[i + 1] as number));
  }
  return text;
}

/** Reads a `ToUnicode` map. */
export function readFontText(map: Uint8Array): FontText {
  const texts = new Map<number, string>();
  let width = 1;
  let held: (Uint8Array | Uint8Array[])[] = [];
  let list: Uint8Array[] | null = null;
  for (const token of tokensIn(map)) {
    if (token.kind === 'string') {
      if (list) list.push(token.bytes);
      else held.push(token.bytes);
    } else if (token.kind === 'word' && token.text === '[') list = [];
    else if (token.kind === 'word' && token.text === ']') {
      held.push(list ?? []);
      list = null;
    } else if (token.kind === 'word') {
      if (token.text === 'endcodespacerange') {
        width = Math.max(1, ...held.map((code) => (code instanceof Uint8Array ? code.length : 1)));
      } else if (token.text === 'endbfchar') {
        for (let i = 0; i + 1 < held.length; i += 2) {
          const [code, text] = [held[i], held[i + 1]];
          if (code instanceof Uint8Array && text instanceof Uint8Array) {
            texts.set(numberOf(code), utf16(text));
          }
        }
      } else if (token.text === 'endbfrange') range(held, texts);
      if (!/^(<<|>>)$/.test(token.text)) held = [];
    }
  }
  return { width, texts };
}

function range(held: readonly (Uint8Array | Uint8Array[])[], texts: Map<number, string>): void {
  for (let i = 0; i + 2 < held.length; i += 3) {
    const [low, high, to] = held.slice(i, i + 3);
    if (!(low instanceof Uint8Array && high instanceof Uint8Array) || to === undefined) continue;
    const from = numberOf(low);
    const last = Math.min(numberOf(high), from + 0xffff);
    for (let code = from; code <= last; code++) {
      if (to instanceof Uint8Array) {
        const text = utf16(to);
        const end = text.charCodeAt(text.length - 1) + code - from;
        texts.set(code, text.slice(0, -1) + String.fromCharCode(end));
      } else {
        const text = to[code - from];
        if (text) texts.set(code, utf16(text));
      }
    }
  }
}

/** Text as it was shown, with the byte of the content where each part stands; null between two showings. */
export type Shown = readonly { readonly text: string | null; readonly at: number }[];

/** A kerning jump as wide as a space, in thousandths of the type size. */
const AS_A_SPACE = -180;

/**
 * The text that a content stream shows.
 * @param fontOf how the codes of a font read, by its name among the page's resources; null where they are letters
 */
export function shownText(content: Uint8Array, fontOf: (name: string) => FontText | null): Shown {
  const shown: { text: string | null; at: number }[] = [];
  let font: FontText | null = null;
  let held: ({ bytes: Uint8Array; at: number } | number)[] = [];
  let name = '';
  for (const token of tokensIn(content)) {
    if (token.kind === 'string') held.push({ bytes: token.bytes, at: token.at });
    else if (token.kind === 'number') held.push(token.value);
    else if (token.kind === 'name') name = token.text;
    else if (token.text === '[' || token.text === ']') continue;
    else {
      if (token.text === 'Tf') font = fontOf(name);
      else if (['Tj', 'TJ', "'", '"'].includes(token.text)) {
        for (const part of held) {
          if (typeof part === 'number') {
            if (part < AS_A_SPACE && token.text === 'TJ') shown.push({ text: ' ', at: token.at });
          } else shown.push({ text: readIn(font, part.bytes), at: part.at });
        }
        shown.push({ text: null, at: token.at });
      }
      held = [];
    }
  }
  return shown;
}

function readIn(font: FontText | null, bytes: Uint8Array): string {
  if (!font) return String.fromCharCode(...bytes);
  let text = '';
  for (let i = 0; i + font.width <= bytes.length; i += font.width) {
    text += font.texts.get(numberOf(bytes, i, i + font.width)) ?? '\u0001';
  }
  return text;
}
