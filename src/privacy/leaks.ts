import { unescaped } from './bytes/escapes.js';
import { type Piece, utf8 } from './bytes/piece.js';
import type { Identifier } from './identifiers.js';
import { NO_OWN_TEXT, type OwnText } from './own-text.js';
import { type Search, searchFor, soughtFrom } from './search/search.js';

/** An identifier that stands in a text. */
export interface Leak extends Identifier {
  /** Some text around it. */
  readonly around: string;
}

/**
 * Identifiers that occur in a text, whatever their case, accents, HTML entities, and the spaces, dashes or dots between
 * their parts. Words count only as whole words, so that an animal called Ash does not withhold every "washed".
 * @param own as in `searchFor`; the same for the same identifiers
 */
export function leaksIn(
  text: string,
  identifiers: readonly Identifier[],
  own: OwnText = NO_OWN_TEXT,
): Leak[] {
  const search = searches.get(identifiers) ?? searchFor(soughtFrom(identifiers), own);
  searches.set(identifiers, search);
  const piece: Piece = {
    bytes: utf8(text),
    within: [],
    at: (offset) => offset,
    sort: 'text',
    wide: false,
  };
  const found = new Map<Identifier, Leak>();
  for (const each of [piece, ...unescaped(piece)]) {
    for (const { identifier, start, end } of search(each)) {
      if (found.has(identifier)) continue;
      found.set(identifier, { ...identifier, around: readableAround(each.bytes, start, end) });
    }
  }
  return identifiers.flatMap((identifier) => found.get(identifier) ?? []);
}

/** A search takes a moment to prepare, and the same identifiers are sought in many texts. */
const searches = new WeakMap<readonly Identifier[], Search>();

/** The bytes around a hit as a message may show them. */
export function readableAround(bytes: Uint8Array, start: number, end: number): string {
  return new TextDecoder()
    .decode(bytes.subarray(Math.max(0, start - 30), end + 30))
    .replace(/\s+/g, ' ')
    .replace(/[\p{Cc}\p{Cf}\ufffd]+/gu, '·');
}
