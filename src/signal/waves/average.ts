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
  const size = before + after + 1;
  const all = positions.map((_, k) => k);
  const first = meanOf(samples, positions, all, before, size, limits);
  if (positions.length < 4) return { ...first, at: before };
  const distance = all.map((k) =>
    squaredDistance(samples, positions[k]!, before, first.mean, limits(k)),
  );
  const middle = [...distance].sort((a, b) => a - b)[distance.length >> 1]!;
  const kept = all.filter((k) => distance[k]! <= outlying * middle);
  if (kept.length === all.length || kept.length === 0) return { ...first, at: before };
  return { ...meanOf(samples, positions, kept, before, size, limits), at: before };
}

function meanOf(
  samples: Float64Array,
  positions: readonly number[],
  members: readonly number[],
  before: number,
  size: number,
  limits: (k: number) => readonly [number, number],
): Omit<Average, 'at'> {
  const sum = new Float64Array(size);
  const counts = new Uint16Array(size);
  const changes = new Float64Array(size);
  const changeCounts = new Uint16Array(size);
  const squares = new Float64Array(size);
  for (const k of members) {
    const [low, high] = limits(k);
    const start = positions[k]! - before;
    const from = Math.max(0, low - start, -start);
    const to = Math.min(size - 1, high - start, samples.length - 1 - start);
    for (let i = from; i <= to; i++) {
      const x = samples[start + i]!;
      if (Number.isNaN(x)) continue;
      sum[i]! += x;
      counts[i]!++;
    }
    // The same offsets in every member, whichever sample it begins with.
    for (let i = changeOver * Math.ceil(from / changeOver + 1); i <= to; i += changeOver) {
      const change = samples[start + i]! - samples[start + i - changeOver]!;
      if (Number.isNaN(change)) continue;
      changes[i]! += change;
      changeCounts[i]!++;
      squares[i]! += change * change;
    }
  }
  const errors: number[] = [];
  for (let i = 0; i < size; i++) {
    const n = counts[i]!;
    const seen = changeCounts[i]!;
    if (seen > 1) {
      const variance = Math.max(0, squares[i]! - (changes[i]! * changes[i]!) / seen) / (seen - 1);
      // A change holds the noise of two samples.
      errors.push(Math.sqrt(variance / (2 * seen)));
    }
    // A mean of few where others have many would jump from one to the next.
    sum[i] = n * 2 >= members.length && n > 0 ? sum[i]! / n : Number.NaN;
  }
  errors.sort((a, b) => a - b);
  return { mean: sum, error: errors[errors.length >> 2] ?? 0, count: members.length };
}

function squaredDistance(
  samples: Float64Array,
  position: number,
  before: number,
  mean: Float64Array,
  [low, high]: readonly [number, number],
): number {
  let sum = 0;
  let count = 0;
  const start = position - before;
  const to = Math.min(mean.length - 1, high - start, samples.length - 1 - start);
  for (let i = Math.max(0, low - start, -start); i <= to; i++) {
    const away = samples[start + i]! - mean[i]!;
    if (Number.isNaN(away)) continue;
    sum += away * away;
    count++;
  }
  return count === 0 ? 0 : sum / count;
}
