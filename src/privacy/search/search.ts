// Choices of the method and codes of file formats: not clinical numbers.

import type { Piece } from '../bytes/piece.js';
import type { Identifier } from '../identifiers.js';
import { NO_OWN_TEXT, type OwnText } from '../own-text.js';
import { beginningsIn, type FirstLetters, Gathering, gapsOf, hashOf } from './beginnings.js';
import { FOLD, foldHigh, GAP, SEVERAL, severalOf, UNSEEN } from './fold.js';
import {
  ALIKE,
  ALIKE_SINGLE,
  gapBefore,
  Lexicon,
  type Likeness,
  readOn,
  type Spelled,
  spelledOut,
  UNLIKE,
} from './lexicon.js';
import { evidence, isMeant, type Match, stands, viewOf } from './match.js';
import {
  type Encoding,
  isSpace,
  letterBefore,
  lettersBetween,
  readerOf,
  type Seen,
  WIDEST_GAP,
} from './read.js';
import * as signs from './signs.js';
import { SIGNS, signOf, signOfFolded } from './signs.js';
import { WideBeginnings } from './wide-beginnings.js';

// What is imported is looked up anew at each use; what a module keeps to itself is not.
const { NO_SIGN, UNSEEN_SIGN, SEVERAL_SIGN } = signs;

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

/** Identifiers as a search needs them: to spell thousands in every way takes longer than to search a case. Plain data. */
export interface Sought {
  readonly identifiers: readonly Identifier[];
  readonly spelled: Spelled;
  readonly firstLetters: FirstLetters;
  /** With what letters spellings begin. */
  readonly firstOfAll: ReadonlySet<number>;
}

/** Prepares identifiers for a search. */
export function soughtFrom(identifiers: readonly Identifier[]): Sought {
  const gathering = new Gathering();
  const firstOfAll = new Set<number>();
  const spelled = spelledOut(identifiers, (spelling) => {
    gathering.heed(spelling);
    firstOfAll.add(spelling.letters[0] as number);
  });
  return { identifiers, spelled, firstLetters: gathering.done(), firstOfAll };
}

/**
 * @param own what the pages print of themselves: a word of it alone, as in an animal called Heart, counts only with a capital
 *   letter in the middle of a sentence that is not of it
 */
export function searchFor(
  { identifiers, spelled, firstLetters, firstOfAll }: Sought,
  own: OwnText = NO_OWN_TEXT,
): Search {
  const lexicon = new Lexicon(identifiers, spelled);
  let wide: WideBeginnings | undefined;

  return ({ bytes, sort, wide: mayBeWide }) => {
    const narrow = new Reading({ bytes, sort, encoding: 'UTF-8' }, lexicon, own);
    beginningsIn(bytes, narrow.read, firstLetters, (at, index, window, older, count) => {
      const [hash, gaps] = [hashOf(window, older, count), gapsOf(window, older, count)];
      narrow.goOn(at, index, count, hash, gaps);
    });
    const found = narrow.inOrder();
    if (!mayBeWide) return found;
    wide ??= new WideBeginnings(firstOfAll);
    const unlikely = sort === 'text' ? 'guessed' : 'binary';
    const ways = (['UTF-16LE', 'UTF-16BE'] as const).map((encoding) => {
      const [even, odd] = [0, 1].map(
        () => new Reading({ bytes, sort: unlikely, encoding }, lexicon, own),
      ) as [Reading, Reading];
      return { encoding, even, odd };
    });
    const [little, big] = ways as [(typeof ways)[number], (typeof ways)[number]];
    wide.in(bytes, (at, encoding) => {
      const { even, odd } = encoding === 'UTF-16LE' ? little : big;
      (at % 2 === 0 ? even : odd).begin(at);
    });
    return [...found, ...ways.flatMap(({ even, odd }) => [...even.inOrder(), ...odd.inOrder()])];
  };
}

/** Bytes read in one encoding, and the identifiers that were found in them. */
class Reading {
  readonly read;
  private readonly hits = new Map<Identifier, Hit>();

  constructor(
    private readonly piece: Pick<Piece, 'bytes' | 'sort'> & { readonly encoding: Encoding },
    private readonly lexicon: Lexicon,
    private readonly own: OwnText,
  ) {
    this.read = readerOf(piece.bytes, piece.encoding);
  }

  inOrder(): Hit[] {
    return [...this.hits.values()].sort((a, b) => a.end - b.end || a.start - b.start);
  }

  /** Reads on from a character by which a spelling may begin, with each of its letters. */
  begin(at: number): void {
    const code = this.read(at) >> 3;
    const folded = code < 0x10000 ? (FOLD[code] as number) : foldHigh(code);
    if (folded === GAP || folded === UNSEEN) return;
    if (folded !== SEVERAL) this.goOn(at, 0, 1, readOn(0, signOf(folded)), 0);
    else {
      severalOf(code).forEach((letter, index) => {
        this.goOn(at, index, 1, readOn(0, signOf(letter)), 0);
      });
    }
  }

  /**
   * Reads on as long as some spelling may go on so, and keeps whatever stands.
   * @param last the byte of the character of the last letter that was read
   * @param which of the letters of that character
   * @param read how many letters were read so far
   * @param came what they came to
   * @param apart before which of them a gap stands
   */
  goOn(last: number, which: number, read: number, came: number, apart: number): void {
    const { lexicon } = this;
    const { bytes, encoding } = this.piece;
    const { length } = bytes;
    const narrow = encoding === 'UTF-8';
    let [at, index, count, hash, gaps] = [last, which, read, came, apart];
    // Where the next character begins, and what is left of this one.
    let next = at + 1;
    let left = 0;
    if (!narrow || (bytes[at] as number) >= 0x80) {
      next = at + (this.read(at) & 7);
      left = this.lettersBehind(at, index);
    }
    let gap = 0;
    let spaced = false;
    for (;;) {
      if (lexicon.mayEnd(hash, gaps)) this.arrive(at, next, index, count, hash, gaps);
      if (count % 2 === 0 && !lexicon.mayGoOn(hash)) return;
      // The next letter.
      let sign = NO_SIGN;
      if (left > 0) {
        left--;
        index++;
        sign = signOf(severalOf(this.read(at) >> 3)[index] as number);
      } else {
        do {
          if (next >= length) return;
          at = next;
          let code = bytes[at] as number;
          next = at + 1;
          if (!narrow || code >= 0x80) {
            const packed = this.read(at);
            code = packed >> 3;
            next = at + (packed & 7);
          }
          sign = code < 0x10000 ? (SIGNS[code] as number) : signOfFolded(foldHigh(code));
          if (sign === NO_SIGN) {
            const space = isSpace(code);
            // White space of any length is one gap, as a line may break there.
            if (!(space && spaced) && ++gap > WIDEST_GAP) return;
            spaced = space;
          } else if (sign === SEVERAL_SIGN) {
            const several = severalOf(code);
            sign = signOf(several[0] as number);
            left = several.length - 1;
          }
        } while (sign === NO_SIGN || sign === UNSEEN_SIGN);
        index = 0;
      }
      hash = readOn(hash, sign);
      if (gap > 0) gaps |= gapBefore(count);
      count++;
      gap = 0;
      spaced = false;
    }
  }

  /** How many letters a character has behind one of them. */
  private lettersBehind(at: number, index: number): number {
    const code = this.read(at) >> 3;
    const sign = code < 0x10000 ? SIGNS[code] : signOfFolded(foldHigh(code));
    return sign === SEVERAL_SIGN ? severalOf(code).length - 1 - index : 0;
  }

  /** Where the letters of a spelling may have ended. @param stop where the last character ends */
  private arrive(
    at: number,
    stop: number,
    index: number,
    count: number,
    hash: number,
    gaps: number,
  ): void {
    const { lexicon, hits, own, read } = this;
    const { bytes, sort, encoding } = this.piece;
    let seen: readonly Seen[] | undefined;
    let likeness: Likeness | undefined;
    for (
      let entry = lexicon.first(hash, gaps);
      entry >= 0;
      entry = lexicon.after(entry, hash, gaps)
    ) {
      const identifier = lexicon.ownerOf(entry);
      // Of several places, the one that ends first.
      const known = hits.get(identifier);
      if (known && known.end < stop) continue;
      const demanded = lexicon.likenessOf(entry);
      if (demanded > UNLIKE) {
        likeness ??= encoding === 'UTF-8' ? likenessIn(bytes, at, count, gaps) : ALIKE_SINGLE;
        if (likeness < demanded) continue;
      }
      seen ??= this.lettersUpTo(at, index, count);
      const spelling = lexicon.spellingOf(entry);
      const first = seen.length - count;
      const { letters } = spelling;
      if (letters.length !== count) continue;
      if (!letters.every((letter, i) => seen?.[first + i]?.letter === letter)) continue;
      const view: Match = { ...viewOf(seen, spelling, first === 0), stop, bytes, read };
      if (known && known.end === stop && known.start <= view.start) continue;
      if (!stands(view) || !isMeant(view, own)) continue;
      if (ENOUGH[sort] > 0 && evidence(view, encoding !== 'UTF-8') < ENOUGH[sort]) continue;
      hits.delete(identifier);
      hits.set(identifier, { identifier, encoding, start: view.start, end: stop });
    }
  }

  /** Some letters up to one, and the one before them if there is any near. */
  private lettersUpTo(last: number, index: number, count: number): Seen[] {
    const { bytes, encoding } = this.piece;
    let from = last;
    for (let i = 0; i < count; i++) {
      const before = letterBefore(bytes, encoding, this.read, from);
      if (before === null) break;
      from = before;
    }
    return lettersBetween(this.read, from, last, index);
  }
}

/**
 * How like each other the gaps between digits are at most: a look at what is plain, as the rows of numbers of a drawing
 * are. What is not may be anything.
 * @param last the byte of the last digit
 */
function likenessIn(bytes: Uint8Array, last: number, count: number, gaps: number): Likeness {
  let likeness: Likeness = ALIKE_SINGLE;
  let mark = -1;
  let at = last;
  for (let i = count - 1; i > 0; i--) {
    at--;
    if ((gaps & gapBefore(i)) !== 0) {
      if (!isPlainGap(bytes[at])) return likeness;
      for (; isPlainGap(bytes[at - 1]); at--) likeness = ALIKE;
      if (!isDigit(bytes[at - 1])) return likeness;
      if (mark >= 0 && bytes[at] !== mark) return UNLIKE;
      mark = bytes[at] as number;
      at--;
    } else if (!isDigit(bytes[at])) return likeness;
  }
  return likeness;
}

const isDigit = (byte: number | undefined): boolean =>
  byte !== undefined && byte >= 0x30 && byte <= 0x39;
const isPlainGap = (byte: number | undefined): boolean =>
  byte !== undefined && byte < 0x80 && SIGNS[byte] === NO_SIGN;
