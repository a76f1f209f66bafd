// Choices of the method and codes of file formats: not clinical numbers.

import type { Identifier } from '../identifiers.js';
import { Ints } from './ints.js';
import { ANY_MANNER, bitsOf, mannersLeft } from './manners.js';
import { signOf } from './signs.js';
import { type Spelling, spellingsOf } from './spellings.js';

/** What letters come to, read one after another: each by its sign. 0 before the first. */
export function readOn(hash: number, sign: number): number {
  const mixed = Math.imul(hash ^ sign, 0x9e3779b1);
  return mixed ^ (mixed >>> 15);
}

/** Letters whose gaps are kept, a bit for each; those behind them are looked at where a spelling stands whole. */
const KEPT_GAPS = 31;
export const gapBefore = (index: number): number => (index < KEPT_GAPS ? 1 << index : 0);

/** Bits of the marks for each identifier, most of which have a dozen spellings or two. */
const ROOM_LOG = 12;
const MOST_ROOM_LOG = 24;
/** Spellings of so many identifiers are kept once they were asked for. */
const MOST_KEPT = 2000;

/**
 * All spellings of many identifiers, in few bytes each: what the letters of each come to, whose it is, and where its
 * letters may stand apart. The spelling itself is worked out where it may stand.
 */
export class Lexicon {
  /** The first entry of those whose letters come to the same, by the end of that; -1 for none. */
  private readonly heads: Int32Array;
  private readonly next: Int32Array;
  private readonly hashes: Int32Array;
  private readonly owners: Int32Array;
  private readonly ways: Int32Array;
  /** Which of the forms each has; of a form: where gaps may stand and must, in either manner. */
  private readonly forms: Int32Array;
  private readonly gaps: Int32Array;
  /** A bit for what the letters of a spelling come to, and every second of its beginnings. */
  private readonly marks: Int32Array;
  private readonly shift: number;
  private readonly kept = new Map<number, readonly Spelling[]>();

  /** @param heed is told of every spelling */
  constructor(
    readonly identifiers: readonly Identifier[],
    heed: (spelling: Spelling) => void,
  ) {
    const log = Math.min(MOST_ROOM_LOG, ROOM_LOG + Math.ceil(Math.log2(identifiers.length + 1)));
    this.marks = new Int32Array(2 ** (log - 5));
    this.shift = 32 - log;
    const [hashes, owners, ways, forms] = [new Ints(), new Ints(), new Ints(), new Ints()];
    const gaps: number[] = [];
    const known = new Map<string, number>();
    identifiers.forEach(({ text }, owner) => {
      spellingsOf(text).forEach((spelling, way) => {
        if (spelling.letters.length < 2) return;
        heed(spelling);
        hashes.push(this.mark(spelling));
        owners.push(owner);
        ways.push(way);
        const form = formOf(spelling);
        const key = form.join();
        const place = known.get(key) ?? gaps.length;
        if (place === gaps.length) {
          gaps.push(...form);
          known.set(key, place);
        }
        forms.push(place);
      });
    });
    this.hashes = hashes.done();
    this.owners = owners.done();
    this.ways = ways.done();
    this.forms = forms.done();
    this.gaps = Int32Array.from(gaps);
    const { length } = this.hashes;
    this.heads = new Int32Array(2 ** Math.ceil(Math.log2(2 * length + 2))).fill(-1);
    this.next = new Int32Array(length);
    // From the last on, so that the first stands first.
    for (let entry = length - 1; entry >= 0; entry--) {
      const head = (this.hashes[entry] as number) & (this.heads.length - 1);
      this.next[entry] = this.heads[head] as number;
      this.heads[head] = entry;
    }
  }

  /** Whether letters may be a spelling, or an even number of letters the beginning of one. */
  isMarked(hash: number): boolean {
    const place = hash >>> this.shift;
    return (((this.marks[place >> 5] as number) >> (place & 31)) & 1) !== 0;
  }

  /** The first of the entries, from one on, whose letters come to the same and may stand apart so; -1 for none. */
  from(entry: number, hash: number, gaps: number): number {
    let at = entry;
    while (at >= 0 && !(this.hashes[at] === hash && this.mayStand(at, gaps))) {
      at = this.next[at] as number;
    }
    return at;
  }

  first(hash: number, gaps: number): number {
    return this.from(this.heads[hash & (this.heads.length - 1)] as number, hash, gaps);
  }

  after(entry: number, hash: number, gaps: number): number {
    return this.from(this.next[entry] as number, hash, gaps);
  }

  ownerOf(entry: number): Identifier {
    return this.identifiers[this.owners[entry] as number] as Identifier;
  }

  spellingOf(entry: number): Spelling {
    const owner = this.owners[entry] as number;
    let all = this.kept.get(owner);
    if (!all) {
      if (this.kept.size >= MOST_KEPT) this.kept.clear();
      all = spellingsOf(this.ownerOf(entry).text);
      this.kept.set(owner, all);
    }
    return all[this.ways[entry] as number] as Spelling;
  }

  private mark({ letters }: Spelling): number {
    let hash = 0;
    for (let i = 0; i < letters.length; i++) {
      hash = readOn(hash, signOf(letters[i] as number));
      if (i % 2 === 0 && i < letters.length - 1) continue;
      const place = hash >>> this.shift;
      this.marks[place >> 5] = (this.marks[place >> 5] as number) | (1 << (place & 31));
    }
    return hash;
  }

  private mayStand(entry: number, gaps: number): boolean {
    const form = this.forms[entry] as number;
    const agrees = (at: number) =>
      ((gaps & ~(this.gaps[at] as number)) | ((this.gaps[at + 1] as number) & ~gaps)) === 0;
    return agrees(form) || agrees(form + 2);
  }
}

/** For each manner, before which letters a gap may stand, and before which it must. */
function formOf(spelling: Spelling): number[] {
  const form: number[] = [];
  for (let manner = 1; manner <= ANY_MANNER; manner <<= 1) {
    let may = 0;
    let must = 0;
    for (let i = 1; i < spelling.letters.length; i++) {
      const bits = bitsOf(spelling, i);
      const [beside, apart] = [mannersLeft(manner, bits, false), mannersLeft(manner, bits, true)];
      if (apart > 0) may |= gapBefore(i);
      if (beside === 0) must |= gapBefore(i);
    }
    form.push(may, must);
  }
  return form;
}
