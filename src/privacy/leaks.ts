import type { Identifier } from './identifiers.js';

export interface Leak extends Identifier {
  /** Some text around it. */
  readonly around: string;
}

/**
 * Identifiers that occur in a text, whatever their case, accents, HTML entities, and the spaces, dashes or dots between
 * their parts. Words count only as whole words, so that an animal called Ash does not withhold every "washed".
 */
export function leaksIn(text: string, identifiers: readonly Identifier[]): Leak[] {
  const searched = folded(withoutEntities(text));
  return identifiers.flatMap((identifier) => {
    const parts = folded(identifier.text).match(/[\p{L}\p{N}]+/gu);
    if (!parts) return [];
    const found = new RegExp(
      `(?<![\\p{L}\\p{N}])${parts.join('[^\\p{L}\\p{N}]{0,3}')}(?![\\p{L}\\p{N}])`,
      'u',
    ).exec(searched);
    return found
      ? [
          {
            ...identifier,
            around: searched.slice(
              Math.max(0, found.index - 30),
              found.index + found[0].length + 30,
            ),
          },
        ]
      : [];
  });
}

function folded(text: string): string {
  // Marks are accents; format characters are the likes of a soft hyphen, which no reader sees.
  return text
    .normalize('NFKD')
    .replace(/[\p{M}\p{Cf}]/gu, '')
    .toLowerCase()
    .replace(/\s+/g, ' ')
    .trim();
}

function withoutEntities(text: string): string {
  const named: Readonly<Record<string, string>> = {
    amp: '&',
    lt: '<',
    gt: '>',
    quot: '"',
    apos: "'",
    nbsp: ' ',
    shy: '',
  };
  return text.replace(/&(?:#(\d+)|#x([\da-f]+)|(\w+));/gi, (whole, decimal, hex, name) => {
    if (name !== undefined) return named[name.toLowerCase()] ?? accented(name) ?? whole;
    const code = decimal !== undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

/** `eacute` to `e`: the letter of an accented letter's entity, as accents do not count. */
const accented = (name: string): string | undefined =>
  /^([a-z])(?:acute|grave|circ|tilde|uml|cedil|ring|caron)$/i.exec(name)?.[1];
