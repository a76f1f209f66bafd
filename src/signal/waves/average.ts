import { nthSmallest } from '../filter/order-statistics.js';

/** Beats laid over each other and averaged. */
export interface Average {
  /** Mean of the members, mV; `at` is the sample at their common position. NaN where none reaches. */
  readonly mean: Float64Array;
  readonly at: number;
  /** Standard error of the mean, slow differences left out, where the members differ little (lower quartile); mV. */
  readonly error: number;
  /** How many members were averaged. */
  readonly count: number;
}

/** Noise is judged by what changes within this many samples, so that wander does not count. */
const changeOver = 4;
/** A member further from the mean than this many times the middle one is left out. */
const outlying = 4;

/**
 * The mean of `samples` around each of `positions`, from `before` samples before to `after` behind.
 * Member k gives no sample behind `lasts[k]`; without `lasts` each gives all. A member that is unlike
 * the rest (an artefact) is left out.
 */
export function averageOf(
  samples: Float64Array,
  positions: readonly number[],
  before: number,
  after: number,
  lasts?: readonly number[],
): Average {
  const sums = new MemberSums(samples, before, after, positions, lasts);
  for (let k = 0; k < positions.length; k++) sums.add(k, 1);
  const mean = sums.mean(positions.length);
  const outliers = positions.length < 4 ? [] : outliersAmong(sums.squaredDistances(mean));
  const count = positions.length - outliers.length;
  if (outliers.length === 0 || count === 0) {
    return { mean, at: before, error: sums.error(), count: positions.length };
  }
  for (const k of outliers) sums.add(k, -1);
  return { mean: sums.mean(count), at: before, error: sums.error(), count };
}

/** The places of the members that lie far from the mean. */
function outliersAmong(distances: Float64Array): number[] {
  const most = outlying * nthSmallest(distances.slice(), distances.length >> 1);
  const outliers: number[] = [];
  for (let k = 0; k < distances.length; k++) if (!(distances[k]! <= most)) outliers.push(k);
  return outliers;
}

/** Sums, sample by sample. */
interface Sums {
  readonly values: Float64Array;
  /** How many members begin to give samples here, less those that have ceased to; and how many miss this one. */
  readonly begins: Int32Array;
  readonly missing: Int32Array;
  /** Of every `changeOver`-th sample, how far it lies from the one `changeOver` before; its square; how often it was seen. */
  readonly changes: Float64Array;
  readonly squares: Float64Array;
  readonly seen: Float64Array;
  /** Room for what is told of them. */
  readonly errors: Float64Array;
}

const placesIn = (size: number): number => Math.ceil(size / changeOver);

function sumsOf(size: number): Sums {
  const places = placesIn(size);
  return {
    values: new Float64Array(size),
    begins: new Int32Array(size + 1),
    missing: new Int32Array(size),
    changes: new Float64Array(places),
    squares: new Float64Array(places),
    seen: new Float64Array(places),
    errors: new Float64Array(places),
  };
}

/** Averages are taken too often for arrays of their own. */
let laid = sumsOf(0);

/** Sums of so many samples or more, all 0, until they are asked for again. */
function noSums(size: number): Sums {
  if (laid.values.length < size) laid = sumsOf(size);
  const places = placesIn(size);
  laid.values.fill(0, 0, size);
  laid.begins.fill(0, 0, size + 1);
  laid.missing.fill(0, 0, size);
  laid.changes.fill(0, 0, places);
  laid.squares.fill(0, 0, places);
  laid.seen.fill(0, 0, places);
  return laid;
}

/** What the members add up to, until the next average is begun. */
class MemberSums {
  private readonly size: number;
  private readonly sums: Sums;

  constructor(
    private readonly samples: Float64Array,
    private readonly before: number,
    after: number,
    private readonly positions: readonly number[],
    private readonly lasts: readonly number[] | undefined,
  ) {
    this.size = before + after + 1;
    this.sums = noSums(this.size);
  }

  /** Adds a member, or with `sign` -1 takes it away again. */
  add(k: number, sign: 1 | -1): void {
    const { samples } = this;
    const { values, begins, missing, changes, squares, seen } = this.sums;
    const start = this.startOf(k);
    const from = this.firstOf(k);
    const to = this.lastOf(k);
    if (to < from) return;
    begins[from]! += sign;
    begins[to + 1]! -= sign;
    for (let i = from; i <= to; i++) {
      const x = samples[start + i]!;
      if (Number.isNaN(x)) missing[i]! += sign;
      else values[i]! += sign * x;
    }
    // The same places in every member, whichever sample it begins with.
    let place = Math.ceil(from / changeOver) + 1;
    for (let i = place * changeOver; i <= to; i += changeOver, place++) {
      const change = samples[start + i]! - samples[start + i - changeOver]!;
      if (Number.isNaN(change)) continue;
      changes[place]! += sign * change;
      squares[place]! += sign * change * change;
      seen[place]! += sign;
    }
  }

  /** NaN where less than half of the `members` reach: a mean of few would jump from one sample to the next. */
  mean(members: number): Float64Array {
    const { size } = this;
    const { values, begins, missing } = this.sums;
    const mean = new Float64Array(size).fill(Number.NaN);
    let reaching = 0;
    for (let i = 0; i < size; i++) {
      reaching += begins[i]!;
      const n = reaching - missing[i]!;
      if (n > 0 && n * 2 >= members) mean[i] = values[i]! / n;
    }
    return mean;
  }

  /** The standard error of the mean where the members differ little (lower quartile), mV. */
  error(): number {
    const { changes, squares, seen, errors } = this.sums;
    const places = placesIn(this.size);
    let told = 0;
    for (let i = 0; i < places; i++) {
      const n = seen[i]!;
      if (n < 2) continue;
      const variance = Math.max(0, squares[i]! - (changes[i]! * changes[i]!) / n) / (n - 1);
      // A change holds the noise of two samples.
      errors[told++] = Math.sqrt(variance / (2 * n));
    }
    return told === 0 ? 0 : nthSmallest(errors, told >> 2, told);
  }

  /** Mean squared distance of each member from the mean; 0 where none can be told. */
  squaredDistances(mean: Float64Array): Float64Array {
    const out = new Float64Array(this.positions.length);
    let last = mean.length - 1;
    while (last > 0 && Number.isNaN(mean[last])) last--;
    for (let k = 0; k < out.length; k++) out[k] = this.squaredDistance(k, mean, last);
    return out;
  }

  /** The mean is not told beyond its place `last`. */
  private squaredDistance(k: number, mean: Float64Array, last: number): number {
    const { samples } = this;
    const start = this.startOf(k);
    const from = this.firstOf(k);
    const to = Math.min(last, this.lastOf(k));
    const whole = sumOfSquares(samples, start, mean, from, to);
    if (!Number.isNaN(whole)) return to < from ? 0 : whole / (to - from + 1);
    let sum = 0;
    let count = 0;
    for (let i = from; i <= to; i++) {
      const away = samples[start + i]! - mean[i]!;
      if (Number.isNaN(away)) continue;
      sum += away * away;
      count++;
    }
    return count === 0 ? 0 : sum / count;
  }

  // All of these are whole. `| 0` says so to the compiler, as the lists that they come from hold fractions at other times.
  private startOf(k: number): number {
    return (this.positions[k]! - this.before) | 0;
  }

  /** The first and the last sample of a member that may be used, from its own beginning. */
  private firstOf(k: number): number {
    return Math.max(0, -this.startOf(k)) | 0;
  }

  private lastOf(k: number): number {
    const end = this.samples.length - 1;
    const last = this.lasts ? Math.min(this.lasts[k]!, end) : end;
    return Math.min(this.size - 1, last - this.startOf(k)) | 0;
  }
}

/**
 * Squared distance of the samples from `start` on from the mean, over its places `from` to `to`; NaN where one is missing.
 * Every second place has a sum of its own, as a processor adds to two of them in the time of one.
 */
function sumOfSquares(
  samples: Float64Array,
  start: number,
  mean: Float64Array,
  from: number,
  to: number,
): number {
  let one = 0;
  let other = 0;
  let i = from;
  for (; i < to; i += 2) {
    const away = samples[start + i]! - mean[i]!;
    const next = samples[start + i + 1]! - mean[i + 1]!;
    one += away * away;
    other += next * next;
  }
  if (i === to) one += (samples[start + i]! - mean[i]!) ** 2;
  return one + other;
}
