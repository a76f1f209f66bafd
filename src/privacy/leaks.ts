import type { Identifier } from './identifiers.js';

export interface Leak extends Identifier {
  /** Some text around it. */
  readonly around: string;
}

/**
 * Identifiers that occur in a text, whatever their case, accents, spacing or HTML entities. Words count only as whole
 * words, so that an animal called Ash does not withhold every "washed".
 */
export function leaksIn(text: string, identifiers: readonly Identifier[]): Leak[] {
  const searched = folded(withoutEntities(text));
  return identifiers.flatMap((identifier) => {
    const wanted = folded(identifier.text);
    if (wanted === '') return [];
    const found = new RegExp(`(?<![\\p{L}\\p{N}])${escaped(wanted)}(?![\\p{L}\\p{N}])`, 'u').exec(
      searched,
    );
    return found
      ? [
          {
            ...identifier,
            around: searched.slice(Math.max(0, found.index - 30), found.index + wanted.length + 30),
          },
        ]
      : [];
  });
}

function folded(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/g, ' ').trim();
}

function withoutEntities(text: string): string {
  const named: Readonly<Record<string, string>> = {
    amp: '&',
    lt: '<',
    gt: '>',
    quot: '"',
    apos: "'",
    nbsp: ' ',
  };
  return text.replace(/&(?:#(\d+)|#x([\da-f]+)|(\w+));/gi, (whole, decimal, hex, name) => {
    if (name !== undefined) return named[name.toLowerCase()] ?? whole;
    const code = decimal !== undefined ? Number(decimal) : Number.parseInt(hex, 16);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
