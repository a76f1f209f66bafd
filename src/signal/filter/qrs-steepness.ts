import { pieces } from './pieces.js';
import { finiteRuns, type Run } from './runs.js';
import { bandPassBoth } from './zero-phase.js';

/** Every lead is searched on this grid, whatever rate it was recorded at; in Hz. */
export const searchRate = 250;

/** Corners of the band in which a QRS stands out from P, T, wander and mains; in Hz. */
const band = { low: 11, high: 34 };
/** Shapes are compared between these: free of wander and most mains; in Hz. */
const shapeBand = { low: 2, high: 36 };
/** About the length of a canine QRS; in s. */
const averagedOver = 0.06;

/** What a search for QRS looks at, on the grid of `searchRate`; NaN where the signal is. */
export interface QrsViews {
  /** Root mean square slope over 60 ms within the band of the QRS, mV/s. */
  readonly steepness: Float64Array;
  /** Between 2 and 36 Hz, mV. */
  readonly shape: Float64Array;
}

/**
 * How steeply the signal runs up and down within the band of the QRS: the root mean square slope
 * over 60 ms around each sample. `samples` in mV at `searchRate` -> mV/s, never negative, NaN where
 * the signal is. Grows in proportion with the signal and does not care for its sign. And its shape,
 * which the filter finds beside it.
 */
export function qrsViews(samples: Float64Array): QrsViews {
  const runs = finiteRuns(samples);
  const [banded, shape] = bandPassBoth(samples, runs, searchRate, band, shapeBand);
  const steepness = new Float64Array(samples.length).fill(Number.NaN);
  const half = Math.round((averagedOver * searchRate) / 2);
  for (const { from, to } of runs) averageSlope(banded, from, to, half, steepness);
  return { steepness, shape };
}

function averageSlope(
  banded: Float64Array,
  from: number,
  to: number,
  half: number,
  out: Float64Array,
): void {
  const sum = new Float64Array(1);
  for (let i = from + 1; i < Math.min(to - 1, from + half); i++) sum[0]! += squaredSlope(banded, i);
  for (const [first, end] of pieces(to - from)) {
    averagePiece(banded, { from, to }, from + first, from + end, half, sum, out);
  }
}

/** The places from `first` to `end` of a run; `running` is the sum to go on from. */
function averagePiece(
  banded: Float64Array,
  { from, to }: Run,
  first: number,
  end: number,
  half: number,
  running: Float64Array,
  out: Float64Array,
): void {
  if (first - half - 1 > from && end + half < to) {
    averageWithin(banded, first, end, half, running, out);
    return;
  }
  let sum = running[0]!;
  for (let i = first; i < end; i++) {
    // The ends of a run have no slope.
    const entering = i + half;
    const leaving = i - half - 1;
    if (entering > from && entering < to - 1) sum += squaredSlope(banded, entering);
    if (leaving > from && leaving < to - 1) sum -= squaredSlope(banded, leaving);
    out[i] = rootOfMean(sum, half);
  }
  running[0] = sum;
}

/** The same away from the ends of a run. */
function averageWithin(
  banded: Float64Array,
  first: number,
  end: number,
  half: number,
  running: Float64Array,
  out: Float64Array,
): void {
  let sum = running[0]!;
  for (let i = first; i < end; i++) {
    sum += squaredSlope(banded, i + half);
    sum -= squaredSlope(banded, i - half - 1);
    out[i] = rootOfMean(sum, half);
  }
  running[0] = sum;
}

/** Adding and taking away leaves rounding crumbs; a sum of squares cannot be negative. */
const rootOfMean = (sum: number, half: number): number =>
  sum > 0 ? Math.sqrt(sum / (2 * half + 1)) : 0;

function squaredSlope(banded: Float64Array, i: number): number {
  const slope = ((banded[i + 1]! - banded[i - 1]!) * searchRate) / 2;
  return slope * slope;
}
