import { steps } from './grid.js';
import { boxMean } from './smooth.js';

/** The part of a beat that is compared, before and after its R peak; in s. */
const compared = { before: 0.03, after: 0.05 };
/** Every second grid sample is enough to compare shapes by. */
const stride = 2;
/** Samples on either side that share in a smoothed one, twice over. */
const softness = 2;
/** A time may be off by this much when beats are laid over each other; in s. */
const slack = 0.008;
/** Correlation above which two QRS are of one family. */
const alike = 0.88;
/** The larger of two alike beats may be this many times the smaller. */
const largerBy = 2;
/** A family's shape follows its members slowly: each new one counts for at least this share. */
const follow = 1 / 16;
/** More different shapes than this are noise, and stay alone. */
const most = 24;

/** Beats of one shape, in order of time. */
export interface Family {
  /** Places in the list of beats. */
  readonly members: number[];
  /** Where the member lies when laid over the others: its grid position, corrected. */
  readonly positions: number[];
}

interface Shape extends Family {
  shape: Float64Array;
  energy: number;
}

/**
 * Beats sorted by the shape of their QRS and laid over each other. A beat that cannot be read on
 * this lead is in no family. `lead` in mV on the grid, `beats` grid positions.
 */
export function familiesOf(lead: Float64Array, beats: readonly number[]): Family[] {
  const sorting = new Sorting(lead);
  for (let member = 0; member < beats.length; member++) sorting.add(member, beats[member]!);
  return sorting.families();
}

const before = steps(compared.before);
const size = Math.floor((before + steps(compared.after)) / stride) + 1;
const reach = steps(slack);
/** Room on either side of what is compared, to shift and to smooth. */
const aside = reach + 1 + 2 * softness;

/** The families so far, and how the beat at hand compares with them. */
class Sorting {
  private readonly known: Shape[] = [];
  private readonly lone: Shape[] = [];
  private readonly once = new Float64Array(size * stride + 2 * aside);
  private readonly soft = new Float64Array(this.once.length);
  private readonly seen = new Float64Array(size);
  private best: Shape | null = null;
  private bestShift = 0;
  private bestLikeness = alike;

  constructor(private readonly lead: Float64Array) {}

  families(): Family[] {
    return [...this.known, ...this.lone].map(({ members, positions }) => ({ members, positions }));
  }

  add(member: number, beat: number): void {
    const { lead, once, soft, seen } = this;
    const from = beat - before;
    if (from - reach < 0 || from + reach + size * stride >= lead.length) return;
    // Smoothed twice, as `smooth` does, but only around the beat.
    const start = Math.max(0, from - aside);
    boxMean(lead.subarray(start, from - aside + once.length), softness, once);
    boxMean(once, softness, soft);
    this.best = null;
    this.bestShift = 0;
    this.bestLikeness = alike;
    const at = from - start;
    for (let shift = -reach; shift <= reach; shift += 2) this.compare(at, shift);
    const around = this.bestShift;
    if (this.best) {
      this.compare(at, around - 1);
      this.compare(at, around + 1);
    }
    const energy = take(soft, at + this.bestShift, seen);
    if (energy > 0) this.sortIn(member, beat, energy);
  }

  /** Remembers the family that the beat, so shifted, is more like than any before. */
  private compare(at: number, shift: number): void {
    const { seen, known } = this;
    const energy = take(this.soft, at + shift, seen);
    if (!(energy > 0)) return;
    for (const family of known) {
      const ratio = energy / family.energy;
      if (ratio > largerBy * largerBy || ratio * largerBy * largerBy < 1) continue;
      const likeness = product(seen, family.shape) / Math.sqrt(energy * family.energy);
      if (likeness > this.bestLikeness) {
        this.bestLikeness = likeness;
        this.best = family;
        this.bestShift = shift;
      }
    }
  }

  private sortIn(member: number, beat: number, energy: number): void {
    const { best, known, seen } = this;
    if (best) {
      join(best, member, beat + this.bestShift, seen);
      return;
    }
    const family = { members: [member], positions: [beat], shape: seen.slice(), energy };
    if (known.length < most) known.push(family);
    else this.lone.push(family);
  }
}

function product(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
}

function join(family: Shape, member: number, position: number, seen: Float64Array): void {
  family.members.push(member);
  family.positions.push(position);
  const share = Math.max(follow, 1 / family.members.length);
  family.energy = 0;
  for (let i = 0; i < seen.length; i++) {
    family.shape[i]! += share * (seen[i]! - family.shape[i]!);
    family.energy += family.shape[i]! * family.shape[i]!;
  }
}

/** Copies the window into `out` without its mean; the energy that is left, NaN where unreadable. */
function take(samples: Float64Array, from: number, out: Float64Array): number {
  let mean = 0;
  for (let i = 0; i < out.length; i++) {
    const x = samples[from + i * stride]!;
    out[i] = x;
    mean += x;
  }
  mean /= out.length;
  let energy = 0;
  for (let i = 0; i < out.length; i++) {
    out[i]! -= mean;
    energy += out[i]! * out[i]!;
  }
  return energy;
}
