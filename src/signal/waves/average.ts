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
 * Member k gives only samples between `limits(k)`, both included. A member that is unlike the rest
 * (an artefact) is left out.
 */
export function averageOf(
  samples: Float64Array,
  positions: readonly number[],
  before: number,
  after: number,
  limits: (k: number) => readonly [number, number],
): Average {
  const sums = new MemberSums(samples, before + after + 1);
  const startOf = (k: number) => positions[k]! - before;
  positions.forEach((_, k) => {
    sums.add(startOf(k), limits(k), 1);
  });
  const mean = sums.mean(positions.length);
  const all = { mean, at: before, error: sums.error(), count: positions.length };
  if (positions.length < 4) return all;
  const distances = Float64Array.from(positions, (_, k) =>
    squaredDistance(samples, startOf(k), mean, limits(k)),
  );
  const most = outlying * nthSmallest(distances.slice(), distances.length >> 1);
  let count = positions.length;
  for (let k = 0; k < distances.length; k++) {
    if (distances[k]! <= most) continue;
    sums.add(startOf(k), limits(k), -1);
    count--;
  }
  if (count === positions.length || count === 0) return all;
  return { mean: sums.mean(count), at: before, error: sums.error(), count };
}

type Limits = readonly [number, number];

/** What the members add up to, sample by sample. */
class MemberSums {
  private readonly values: Float64Array;
  private readonly counts: Float64Array;
  /** Of every `changeOver`-th sample, how far it lies from the one `changeOver` before; its square; how often it was seen. */
  private readonly changes: Float64Array;
  private readonly squares: Float64Array;
  private readonly seen: Float64Array;

  constructor(
    private readonly samples: Float64Array,
    private readonly size: number,
  ) {
    this.values = new Float64Array(size);
    this.counts = new Float64Array(size);
    const places = Math.ceil(size / changeOver);
    this.changes = new Float64Array(places);
    this.squares = new Float64Array(places);
    this.seen = new Float64Array(places);
  }

  /** Adds a member that begins at sample `start`, or with `sign` -1 takes it away again. */
  add(start: number, limits: Limits, sign: 1 | -1): void {
    const { samples, values, counts, changes, squares, seen } = this;
    const [from, to] = within(limits, start, this.size, samples.length);
    for (let i = from; i <= to; i++) {
      const x = samples[start + i]!;
      if (Number.isNaN(x)) continue;
      values[i]! += sign * x;
      counts[i]! += sign;
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
    const { values, counts, size } = this;
    const mean = new Float64Array(size).fill(Number.NaN);
    for (let i = 0; i < size; i++) {
      const n = counts[i]!;
      if (n > 0 && n * 2 >= members) mean[i] = values[i]! / n;
    }
    return mean;
  }

  /** The standard error of the mean where the members differ little (lower quartile), mV. */
  error(): number {
    const { changes, squares, seen } = this;
    const errors = new Float64Array(seen.length);
    let told = 0;
    for (let i = 0; i < seen.length; i++) {
      const n = seen[i]!;
      if (n < 2) continue;
      const variance = Math.max(0, squares[i]! - (changes[i]! * changes[i]!) / n) / (n - 1);
      // A change holds the noise of two samples.
      errors[told++] = Math.sqrt(variance / (2 * n));
    }
    return told === 0 ? 0 : nthSmallest(errors.subarray(0, told), told >> 2);
  }
}

/** The first and the last sample of a member that may be used, from its own beginning. */
function within([low, high]: Limits, start: number, size: number, length: number): Limits {
  return [
    Math.max(0, Math.max(low, 0) - start),
    Math.min(size - 1, Math.min(high, length - 1) - start),
  ];
}

function squaredDistance(
  samples: Float64Array,
  start: number,
  mean: Float64Array,
  limits: Limits,
): number {
  let sum = 0;
  let count = 0;
  const [from, to] = within(limits, start, mean.length, samples.length);
  for (let i = from; i <= to; i++) {
    const away = samples[start + i]! - mean[i]!;
    if (Number.isNaN(away)) continue;
    sum += away * away;
    count++;
  }
  return count === 0 ? 0 : sum / count;
}
