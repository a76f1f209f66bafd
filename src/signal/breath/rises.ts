import { nthSmallest } from '../filter/order-statistics.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Steps of a wave are told apart by levels at these shares of its whole height. */
const LOW = 0.3;
const HIGH = 0.7;

/** A rise whose 30 % to 70 % takes longer than this is a slope, not the edge of a breath, s. */
const SLOWEST_EDGE = 1.5;

/**
 * When each rise of a wave starts, s. The wave counts as up above 70 % and as down below 30 % of its
 * height (5th to 95th percentile), so noise between the levels starts nothing; the foot of the rise
 * is where the straight line through its 30 % and 70 % crossings meets 0 %. A gap (NaN) forgets the
 * state, so no rise is told across it. `leastHeight` in the wave's unit: a flatter wave has none.
 */
export function riseStarts(
  samples: Float64Array,
  samplingRate: number,
  leastHeight: number,
): number[] {
  const seen = samples.filter((value) => !Number.isNaN(value));
  if (seen.length === 0) return [];
  const bottom = nthSmallest(seen, Math.floor(0.05 * (seen.length - 1)));
  const height = nthSmallest(seen, Math.floor(0.95 * (seen.length - 1))) - bottom;
  if (!(height >= leastHeight) || height === 0) return [];
  const low = bottom + LOW * height;
  const high = bottom + HIGH * height;
  const starts: number[] = [];
  let leftLow = Number.NaN;
  let down = false;
  for (let i = 1; i < samples.length; i += 1) {
    const before = samples[i - 1] as number;
    const value = samples[i] as number;
    if (Number.isNaN(value)) {
      down = false;
      leftLow = Number.NaN;
      continue;
    }
    if (value <= low) down = true;
    if (before <= low && value > low) leftLow = i - 1 + (low - before) / (value - before);
    if (down && value >= high) {
      down = false;
      const reached = before < high ? i - 1 + (high - before) / (value - before) : i;
      const edge = (reached - leftLow) / samplingRate;
      if (edge <= SLOWEST_EDGE) {
        starts.push(Math.max(0, leftLow / samplingRate - (edge * LOW) / (HIGH - LOW)));
      }
    }
  }
  return starts;
}

/** The wave without what is slower than a breath: each sample less the mean of `seconds` around it. */
export function withoutDrift(
  samples: Float64Array,
  samplingRate: number,
  seconds: number,
): Float64Array {
  const half = Math.round((seconds * samplingRate) / 2);
  const sums = new Float64Array(samples.length + 1);
  const counts = new Float64Array(samples.length + 1);
  samples.forEach((value, i) => {
    const valid = !Number.isNaN(value);
    sums[i + 1] = (sums[i] as number) + (valid ? value : 0);
    counts[i + 1] = (counts[i] as number) + (valid ? 1 : 0);
  });
  return samples.map((value, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(samples.length, i + half + 1);
    const count = (counts[to] as number) - (counts[from] as number);
    return value - ((sums[to] as number) - (sums[from] as number)) / Math.max(1, count);
  });
}
