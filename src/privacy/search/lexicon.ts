// Choices of the method and codes of file formats: not clinical numbers.

import type { Identifier } from '../identifiers.js';
import { Bits, type PlainBits } from './bits.js';
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
/** The bit that tells of a gap before a letter; none for letters whose gaps are not kept. */
export const gapBefore = (index: number): number => (index < KEPT_GAPS ? 1 << index : 0);

/** What letters and the gaps between them come to. */
const withGaps = (hash: number, gaps: number): number => Math.imul(hash ^ gaps, 0x85ebca6b);

/** Gaps of several kinds. */
export const UNLIKE = 0;
/** Of one kind, as in a day in figures. */
export const ALIKE = 1;
/** Of one kind and of one sign each. */
export const ALIKE_SINGLE = 2;
/** How like each other the gaps in a spelling must be. */
export type Likeness = typeof UNLIKE | typeof ALIKE | typeof ALIKE_SINGLE;

/** Bits of a table for each identifier, most of which have a dozen spellings or two. */
const ROOM_LOG = 12;
const MOST_ROOM_LOG = 24;
/** Gaps may stand in more ways than this in a number, for instance: then it is not kept in which. */
const MOST_WAYS = 8;
/** Spellings of so many identifiers are kept once they were asked for. */
const MOST_KEPT = 2000;

/** All spellings of many identifiers, in few bytes each. Plain data. */
export interface Spelled {
  /** The first entry of those whose letters come to the same, by the end of that; -1 for none. */
  readonly heads: Int32Array;
  readonly next: Int32Array;
  readonly hashes: Int32Array;
  readonly owners: Int32Array;
  readonly ways: Int32Array;
  /** The place of the form of each. */
  readonly forms: Int32Array;
  /** Of each form where gaps may stand and must, in either manner, and how like each other they are. */
  readonly gaps: Int32Array;
  /** What every second beginning of a spelling comes to. */
  readonly beginnings: PlainBits;
  /** What whole spellings come to: with the gaps in them, or in whatever way gaps stand. */
  readonly exact: PlainBits;
  readonly loose: PlainBits;
}

/** Spells identifiers in every way. @param heed is told of every spelling */
export function spelledOut(
  identifiers: readonly Identifier[],
  heed: (spelling: Spelling) => void,
): Spelled {
  const log = Math.min(MOST_ROOM_LOG, ROOM_LOG + Math.ceil(Math.log2(identifiers.length + 1)));
  const marks = { beginnings: Bits.empty(log), exact: Bits.empty(log), loose: Bits.empty(log - 2) };
  const [hashes, owners, ways, forms] = [new Ints(), new Ints(), new Ints(), new Ints()];
  const gaps: number[] = [];
  const known = new Map<string, { readonly place: number; readonly ways: readonly number[] }>();
  identifiers.forEach(({ text }, owner) => {
    spellingsOf(text).forEach((spelling, way) => {
      if (spelling.letters.length < 2) return;
      heed(spelling);
      const { letters, shape, joints } = spelling;
      // Of these alone a form is made, and few of them differ.
      const key = `${shape} ${letters.length} ${joints.join()}`;
      let form = known.get(key);
      if (!form) {
        form = { place: gaps.length, ways: formOf(spelling) };
        known.set(key, form);
        gaps.push(...form.ways);
      }
      hashes.push(mark(spelling, form.ways, marks));
      owners.push(owner);
      ways.push(way);
      forms.push(form.place);
    });
  });
  for (const bits of Object.values(marks)) bits.shrink();
  const all = hashes.done();
  return {
    ...linked(all),
    hashes: all,
    owners: owners.done(),
    ways: ways.done(),
    forms: forms.done(),
    gaps: Int32Array.from(gaps),
    ...marks,
  };
}

/** Rows of the entries whose letters come to the same. */
function linked(hashes: Int32Array): Pick<Spelled, 'heads' | 'next'> {
  const { length } = hashes;
  const heads = new Int32Array(2 ** Math.ceil(Math.log2(2 * length + 2))).fill(-1);
  const next = new Int32Array(length);
  // From the last on, so that the first stands first.
  for (let entry = length - 1; entry >= 0; entry--) {
    const head = (hashes[entry] as number) & (heads.length - 1);
    next[entry] = heads[head] as number;
    heads[head] = entry;
  }
  return { heads, next };
}

/**
 * Tells of letters whose they may be. What is kept of a spelling is what its letters come to, whose it is, and where its
 * letters may stand apart; the spelling itself is worked out where it may stand.
 */
export class Lexicon {
  private readonly heads: Int32Array;
  private readonly next: Int32Array;
  private readonly hashes: Int32Array;
  private readonly owners: Int32Array;
  private readonly ways: Int32Array;
  private readonly forms: Int32Array;
  private readonly gaps: Int32Array;
  private readonly beginnings: Bits;
  private readonly exact: Bits;
  private readonly loose: Bits;
  private readonly kept = new Map<number, readonly Spelling[]>();

  /** @param spelled the same identifiers */
  constructor(
    readonly identifiers: readonly Identifier[],
    spelled: Spelled,
  ) {
    this.heads = spelled.heads;
    this.next = spelled.next;
    this.hashes = spelled.hashes;
    this.owners = spelled.owners;
    this.ways = spelled.ways;
    this.forms = spelled.forms;
    this.gaps = spelled.gaps;
    this.beginnings = Bits.of(spelled.beginnings);
    this.exact = Bits.of(spelled.exact);
    this.loose = Bits.of(spelled.loose);
  }

  /** Whether an even number of letters may be the beginning of a spelling. */
  mayGoOn(hash: number): boolean {
    return this.beginnings.has(hash);
  }

  /** Whether letters with some gaps between them may be a spelling. */
  mayEnd(hash: number, gaps: number): boolean {
    return this.exact.has(withGaps(hash, gaps)) || this.loose.has(hash);
  }

  /** The first of the spellings whose letters come to this and may stand apart so; -1 for none. */
  first(hash: number, gaps: number): number {
    return this.from(this.heads[hash & (this.heads.length - 1)] as number, hash, gaps);
  }

  /** The next after one of them; -1 for none. */
  after(entry: number, hash: number, gaps: number): number {
    return this.from(this.next[entry] as number, hash, gaps);
  }

  ownerOf(entry: number): Identifier {
    return this.identifiers[this.owners[entry] as number] as Identifier;
  }

  /** How like each other the gaps in a spelling must be. */
  likenessOf(entry: number): Likeness {
    return this.gaps[(this.forms[entry] as number) + LIKE] as Likeness;
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

  private from(entry: number, hash: number, gaps: number): number {
    let at = entry;
    while (at >= 0 && !(this.hashes[at] === hash && this.mayStand(at, gaps))) {
      at = this.next[at] as number;
    }
    return at;
  }

  private mayStand(entry: number, gaps: number): boolean {
    const form = this.forms[entry] as number;
    for (let at = form; at < form + LIKE; at += 2) {
      const [may, must] = [this.gaps[at] as number, this.gaps[at + 1] as number];
      if (((gaps & ~may) | (must & ~gaps)) === 0) return true;
    }
    return false;
  }
}

/** Notes what the letters of a spelling come to, and gives it. */
function mark(
  { letters }: Spelling,
  form: readonly number[],
  { beginnings, exact, loose }: Readonly<Record<'beginnings' | 'exact' | 'loose', Bits>>,
): number {
  let hash = 0;
  for (let i = 0; i < letters.length; i++) {
    hash = readOn(hash, signOf(letters[i] as number));
    if (i % 2 === 1) beginnings.add(hash);
  }
  const ways: number[] = [];
  for (let at = 0; at < LIKE && ways.length <= MOST_WAYS; at += 2) {
    waysOf(form[at] as number, form[at + 1] as number, ways);
  }
  if (ways.length > MOST_WAYS) loose.add(hash);
  else for (const gaps of ways) exact.add(withGaps(hash, gaps));
  return hash;
}

/** Numbers of a form before the last: two for each manner. */
const LIKE = 4;

/** For each manner, before which letters a gap may stand, and before which it must; how like each other all are. */
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
  const { shape } = spelling;
  form.push(shape === 'figures' ? ALIKE : shape === 'short year' ? ALIKE_SINGLE : UNLIKE);
  return form;
}

/** Adds every way in which gaps may stand, up to a few too many. */
function waysOf(may: number, must: number, ways: number[]): void {
  // A manner that a spelling does not have demands a gap where none may be.
  if ((must & ~may) !== 0) return;
  const free = may & ~must;
  let some = free;
  for (;;) {
    ways.push(some | must);
    if (some === 0 || ways.length > MOST_WAYS) return;
    some = (some - 1) & free;
  }
}
