// Choices of the method and codes of file formats: not clinical numbers.

import type { Piece } from '../bytes/piece.js';
import { utf8 } from '../bytes/piece.js';
import {
  ANYTHING,
  arePlain,
  beginningsIn,
  type FirstLettersOf,
  firstLettersOf,
  lastTwo,
  mayOpen,
  opened,
  scatteredFour,
  scatteredSix,
} from './beginnings.js';
import { Bits } from './bits.js';
import { readerOf } from './read.js';
import { FOREIGN_SIGN, signOf } from './signs.js';
import { type Spelling, spellingsOf } from './spellings.js';

/** `HeldLetters` as a store keeps them. */
export interface KeptLetters {
  readonly twos: Int32Array;
  readonly fours: Int32Array;
  readonly sixes: Int32Array;
  readonly isWide: boolean;
}

/** One in seven is taken: that four letters and six are found by chance is a matter of one in fifty. */
const PLACES_LOG = 20;

/**
 * With what letters the words of some documents begin. It tells of a new identifier that it is not in there, so that they
 * need not be opened and searched again; of the others nothing.
 */
export class HeldLetters {
  private readonly twos: Bits;
  private readonly fours: Bits;
  private readonly sixes: Bits;
  /** Whether some of it was read as UTF-16. */
  private isWide: boolean;

  constructor(kept?: KeptLetters) {
    this.twos = new Bits(16, kept?.twos);
    this.fours = new Bits(PLACES_LOG, kept?.fours);
    this.sixes = new Bits(PLACES_LOG, kept?.sixes);
    this.isWide = kept?.isWide ?? false;
  }

  kept(): KeptLetters {
    const { twos, fours, sixes, isWide } = this;
    return { twos: twos.kept(), fours: fours.kept(), sixes: sixes.kept(), isWide };
  }

  /** Takes in what a search would go over. */
  heed({ bytes, wide }: Pick<Piece, 'bytes' | 'wide'>): void {
    this.read(bytes, false);
    if (!wide) return;
    this.isWide = true;
    for (const from of [0, 1]) {
      // Half a unit at the end counts as one.
      const little = Buffer.alloc(2 * Math.ceil((bytes.length - from) / 2));
      little.set(bytes.subarray(from));
      this.read(utf8(little.toString('utf16le')), true);
      this.read(utf8(little.swap16().toString('utf16le')), true);
    }
  }

  private read(bytes: Uint8Array, isWide: boolean): void {
    const { twos, fours, sixes } = this;
    const takes = isWide ? arePlain : mayOpen;
    beginningsIn(bytes, readerOf(bytes, 'UTF-8'), ANYTHING, (_at, _index, window, older) => {
      if (takes(window, older, 2)) twos.add(lastTwo(opened(window, 2)) << 16);
      if (takes(window, older, 4)) fours.add(scatteredFour(opened(window, 4)));
      if (takes(window, older, 6)) sixes.add(scatteredSix(opened(older, 2), window));
    });
  }

  /** False where no search would find it. */
  mayHold({ two, four, six, isForeign }: Trace): boolean {
    if (isForeign && this.isWide) return true;
    return (
      (two.length === 0 || two.some((way) => this.twos.has(way << 16))) &&
      (four.length === 0 || four.some((way) => this.fours.has(way))) &&
      (six.length === 0 || six.some((way) => this.sixes.has(way)))
    );
  }
}

/** What `HeldLetters` are asked of a spelling. */
export interface Trace extends FirstLettersOf {
  /** What is no UTF-16 is full of such letters when it is read so, so that they are not taken in. */
  readonly isForeign: boolean;
}

/** Of each spelling of a text. */
export const tracesOf = (text: string): Trace[] =>
  spellingsOf(text)
    .filter(({ letters }) => letters.length >= 2)
    .map((spelling) => ({ ...firstLettersOf(spelling), isForeign: isForeign(spelling) }));

const isForeign = ({ letters }: Spelling): boolean =>
  letters.some((letter) => signOf(letter) >= FOREIGN_SIGN);
