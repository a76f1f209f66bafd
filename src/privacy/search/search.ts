// Choices of the method and codes of file formats: not clinical numbers.

import type { Piece } from '../bytes/piece.js';
import type { Identifier } from '../identifiers.js';
import { NO_OWN_TEXT, type OwnText } from '../own-text.js';
import { type Begin, beginningsIn, firstLettersOf, fitsAt } from './beginnings.js';
import { FOLD, foldHigh, GAP, SEVERAL, severalOf, UNSEEN } from './fold.js';
import { ANY_MANNER, mannersLeft } from './manners.js';
import { evidence, isMeant, type Match, stands, viewOf } from './match.js';
import {
  type Encoding,
  isSpace,
  letterBefore,
  lettersBetween,
  type Reader,
  readerOf,
  WIDEST_GAP,
} from './read.js';
import { type Spelling, spellingsOf } from './spellings.js';
import { type Trie, trieFor } from './trie.js';
import { type WideBeginnings, wideBeginningsIn } from './wide-beginnings.js';

/** An identifier that was found in a piece. */
interface Hit {
  readonly identifier: Identifier;
  readonly encoding: Encoding;
  /** Bytes of the piece. */
  readonly start: number;
  readonly end: number;
}

/** A search for many identifiers at once; each is found once a piece and encoding, where it stands first. */
export type Search = (piece: Pick<Piece, 'bytes' | 'sort' | 'wide'>) => Hit[];

/**
 * What speaks for a hit in bytes that are not text, in bits: an identifier that is shorter than this comes about by
 * chance, unless it stands among other readable characters. At 56 bits, 1 GB of compressed bytes and 25,000 spellings
 * give one such accident in some 3,000 builds.
 */
const ENOUGH: Readonly<Record<Piece['sort'], number>> = {
  text: 0,
  guessed: 28,
  binary: 40,
  packed: 56,
};

/**
 * @param own what the pages print of themselves: a word of it alone, as in an animal called Heart, counts only with a capital
 *   letter in the middle of a sentence that is not of it
 */
export function searchFor(identifiers: readonly Identifier[], own: OwnText = NO_OWN_TEXT): Search {
  const { spellings, owners } = allSpellings(identifiers);
  const trie = trieFor(spellings);
  const { step, bits, ends, endingIn } = trie;
  const firstLetters = firstLettersOf(spellings);
  const classes = classesOf(trie);
  const wide = firstUnits(trie, classes);

  /** Reads on from where a spelling may begin, as long as one goes on, and keeps whatever stands. */
  function readerOn(bytes: Uint8Array, sort: Piece['sort'], encoding: Encoding, hits: Hits) {
    const read = readerOf(bytes, encoding);
    const narrow = encoding === 'UTF-8';
    const { length } = bytes;

    const consider = (node: number, begun: Begun, last: Last): void => {
      const { from, index } = begun;
      const before = index > 0 ? from : letterBefore(bytes, encoding, read, from);
      const seen = lettersBetween(read, before ?? from, last.at, last.index);
      for (const which of endingIn(node)) {
        // Of several places, the one that ends first.
        const open = (owners[which] as Identifier[]).filter((identifier) => {
          const known = hits.get(identifier);
          return !(
            known &&
            (known.end < last.stop || (known.end === last.stop && known.start <= from))
          );
        });
        if (open.length === 0) continue;
        const spelling = spellings[which] as Spelling;
        const view: Match = {
          ...viewOf(seen, spelling, before === null),
          stop: last.stop,
          ...{ bytes, read },
        };
        if (!stands(view) || !isMeant(view, own)) continue;
        if (ENOUGH[sort] > 0 && evidence(view, !narrow) < ENOUGH[sort]) continue;
        for (const identifier of open) {
          hits.delete(identifier);
          hits.set(identifier, { identifier, encoding, start: view.start, end: last.stop });
        }
      }
    };

    const readOn = (from: number, index: number): void => {
      let node = 0;
      let manners = ANY_MANNER;
      let gap = 0;
      let spaced = false;
      for (let at = from; at < length; ) {
        let code = bytes[at] as number;
        let stop = at + 1;
        if (!narrow || code >= 0x80) {
          const packed = read(at);
          code = packed >> 3;
          stop = at + (packed & 7);
        }
        const own =
          code < 0x10000 ? (classes[code] as number) : classOfFolded(foldHigh(code), trie);
        if (own > 0) {
          const next = step(node, own);
          if (next === 0) return;
          if (node > 0) manners = mannersLeft(manners, bits[next] as number, gap > 0);
          if (manners === 0) return;
          node = next;
          gap = 0;
          spaced = false;
          if (ends[node] === 1) consider(node, { from, index }, { at, stop, index: 0 });
        } else if (own === IS_GAP) {
          const space = isSpace(code);
          // White space of any length is one gap, as a line may break there.
          if (!(space && spaced) && ++gap > WIDEST_GAP) return;
          spaced = space;
        } else if (own === IS_SEVERAL) {
          const several = severalOf(code);
          for (let i = at === from ? index : 0; i < several.length; i++) {
            const next = step(node, trie.classOf(several[i] as number));
            if (next === 0) return;
            if (node > 0) manners = mannersLeft(manners, bits[next] as number, gap > 0);
            if (manners === 0) return;
            node = next;
            gap = 0;
            spaced = false;
            if (ends[node] === 1) consider(node, { from, index }, { at, stop, index: i });
          }
        } else if (own !== IS_UNSEEN) return;
        at = stop;
      }
    };

    const severalAt = (at: number): number => {
      const code = read(at) >> 3;
      return (code < 0x10000 ? FOLD[code] : foldHigh(code)) === SEVERAL
        ? severalOf(code).length
        : 0;
    };
    const begin = (at: number): void => {
      readOn(at, 0);
      for (let index = severalAt(at) - 1; index > 0; index--) readOn(at, index);
    };

    return (last: number, back: number): void => {
      // Where characters stand for several letters, it may begin with any of them.
      let any = severalAt(last) > 0;
      if (any || back === 0) begin(last);
      let at: number | null = last;
      for (let i = 1; i <= back; i++) {
        at = letterBefore(bytes, encoding, read, at);
        if (at === null) return;
        any ||= severalAt(at) > 0;
        if (any || i === back) begin(at);
      }
    };
  }

  return ({ bytes, sort, wide: mayBeWide }) => {
    const hits: Hits = new Map();
    beginningsIn(
      bytes,
      readerOf(bytes, 'UTF-8'),
      firstLetters,
      readerOn(bytes, sort, 'UTF-8', hits),
    );
    const found = inOrder(hits);
    if (!mayBeWide) return found;
    const unlikely = sort === 'text' ? 'guessed' : 'binary';
    const way = (encoding: Encoding): Way => {
      const atEven: Hits = new Map();
      const atOdd: Hits = new Map();
      return {
        ...{ atEven, atOdd },
        read: readerOf(bytes, encoding),
        even: readerOn(bytes, unlikely, encoding, atEven),
        odd: readerOn(bytes, unlikely, encoding, atOdd),
      };
    };
    const ways = { 'UTF-16LE': way('UTF-16LE'), 'UTF-16BE': way('UTF-16BE') };
    wideBeginningsIn(bytes, wide, (at, encoding) => {
      const { read, even, odd } = ways[encoding];
      if (fitsAt(at, bytes.length, read, firstLetters)) (at % 2 === 0 ? even : odd)(at, 0);
    });
    return [
      ...found,
      ...Object.values(ways).flatMap(({ atEven, atOdd }) => [atEven, atOdd].flatMap(inOrder)),
    ];
  };
}

type Hits = Map<Identifier, Hit>;

/** Where a spelling may begin, and the letter under way: the byte of its character, and which of its letters. */
interface Begun {
  readonly from: number;
  readonly index: number;
}
interface Last {
  readonly at: number;
  readonly stop: number;
  readonly index: number;
}

/** Text of one order, at even and at odd bytes. */
interface Way {
  readonly read: Reader;
  readonly even: Begin;
  readonly odd: Begin;
  readonly atEven: Hits;
  readonly atOdd: Hits;
}

const inOrder = (hits: Hits): Hit[] =>
  [...hits.values()].sort((a, b) => a.end - b.end || a.start - b.start);

/** Every spelling once, with the identifiers that it is of: "June 18" may be a day of two years. */
function allSpellings(identifiers: readonly Identifier[]) {
  const spellings: Spelling[] = [];
  const owners: Identifier[][] = [];
  const seen = new Map<string, Identifier[]>();
  for (const identifier of identifiers) {
    for (const spelling of spellingsOf(identifier.text)) {
      const { letters, shape, joints, capitals, word } = spelling;
      const key = `${shape} ${joints.join()} ${capitals.join()} ${word} ${String.fromCodePoint(...letters)}`;
      if (letters.length < 2) continue;
      const known = seen.get(key);
      if (known) {
        if (!known.includes(identifier)) known.push(identifier);
      } else {
        const own = [identifier];
        seen.set(key, own);
        spellings.push(spelling);
        owners.push(own);
      }
    }
  }
  return { spellings, owners };
}

/** In place of a class of the trie: a character between words, one that is passed over, one of several letters. */
const IS_GAP = -1;
const IS_UNSEEN = -2;
const IS_SEVERAL = -3;

/** For each character of the basic plane, the class of its letter. */
function classesOf(trie: Trie): Int32Array {
  const classes = new Int32Array(0x10000);
  for (let code = 0; code < 0x10000; code++) {
    classes[code] = classOfFolded(FOLD[code] as number, trie);
  }
  return classes;
}

function classOfFolded(folded: number, { classOf }: Trie): number {
  if (folded === GAP) return IS_GAP;
  if (folded === UNSEEN) return IS_UNSEEN;
  return folded === SEVERAL ? IS_SEVERAL : classOf(folded);
}

/** Code units of UTF-16 with which a spelling may begin, and their higher bytes. */
function firstUnits({ step, classOf }: Trie, classes: Int32Array): WideBeginnings {
  const units = new Uint8Array(0x10000);
  const highBytes = new Uint8Array(0x100);
  for (let unit = 0; unit < 0x10000; unit++) {
    const own = classes[unit] as number;
    const leads = unit >= 0xd800 && unit < 0xdc00;
    const opens =
      own === IS_SEVERAL
        ? severalOf(unit).some((letter) => step(0, classOf(letter)) > 0)
        : own > 0 && step(0, own) > 0;
    if (!leads && !opens) continue;
    units[unit] = 1;
    highBytes[unit >> 8] = 1;
  }
  return { units, highBytes };
}
