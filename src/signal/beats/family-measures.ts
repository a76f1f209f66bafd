import { seconds } from '../../units/brands.js';
import { excerptInto, isWhole } from '../filter/excerpt.js';
import type { Channel } from '../waveform.js';
import type { ShapeFamily } from './families.js';
import { SHAPE_HALF, SHAPE_RATE } from './qrs-shapes.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** The averaged QRS is searched for its ends within this, s. */
const REACH = 0.12;
/** A QRS begins and ends where its slope has been under this share of its steepest for `REST` s. */
const EDGE = 0.1;
const REST = 0.012;
/**
 * Where it rests farther than this share of its height from where it began, it has not come back: it stands at the end
 * of a recorder's range, or between two humps.
 */
const BACK = 1 / 3;
/** Slopes of remaining noise (3 standard deviations) over this share of the steepest hide the ends. */
const HIDDEN = 0.2;

const side = Math.round(REACH * SHAPE_RATE);
const width = 2 * side + 1;
const half = Math.round(SHAPE_HALF * SHAPE_RATE);

/** Length, steepness and height of the average QRS. `centres` are the times (s) at which its beats lie over each other. */
export function measured(
  centres: readonly number[],
  leads: readonly Channel[],
): Pick<ShapeFamily, 'qrsDuration' | 'qrsAtLeast' | 'steepness' | 'height'> {
  const steep = new Float64Array(width);
  let noise = 0;
  let height = 0;
  let tallest: Float64Array | null = null;
  for (const lead of leads) {
    const average = new AverageQrs(lead, centres);
    if (average.count === 0) continue;
    const qrs = average.mean.subarray(side - half, side + half);
    const here = Math.max(...qrs) - Math.min(...qrs);
    if (here > height) {
      height = here;
      tallest = average.mean;
    }
    for (let i = 0; i < width; i += 1) steep[i]! += slopeAt(average.mean, i) ** 2;
    noise += average.noise();
  }
  for (let i = 0; i < width; i += 1) steep[i] = Math.sqrt(steep[i]!);
  const most = Math.max(0, ...steep.subarray(side - half, side + half));
  // A single beat gives no measure of its own noise.
  const hum = centres.length > 1 ? 3 * Math.sqrt(noise) : 0;
  const edge = Math.max(EDGE * most, hum);
  const isClear = most > 0 && hum <= HIDDEN * most && tallest !== null;
  const length = isClear ? lengthBetween(steep, edge, tallest!, BACK * height) : Number.NaN;
  const least = isClear ? lengthOfMain(steep, edge, tallest!) : Number.NaN;
  return {
    qrsDuration: Number.isNaN(length) ? null : seconds(length / SHAPE_RATE),
    qrsAtLeast: Number.isNaN(least) ? null : seconds(least / SHAPE_RATE),
    steepness: most,
    height,
  };
}

/** The beats that a lead shows whole, laid over each other. */
class AverageQrs {
  readonly mean = new Float64Array(width);
  readonly count: number;
  /** Sum over the beats of the square of each slope beside the QRS. */
  readonly #squares = new Float64Array(width);

  constructor(lead: Channel, centres: readonly number[]) {
    const row = new Float64Array(width);
    const reach = side / SHAPE_RATE;
    let count = 0;
    for (const centre of centres) {
      excerptInto(lead, centre - reach, SHAPE_RATE, row, 0, width);
      if (!isWhole(row)) continue;
      count += 1;
      this.#add(row);
    }
    this.count = count;
    for (let i = 0; i < width; i += 1) this.mean[i]! /= count;
  }

  #add(row: Float64Array): void {
    const { mean } = this;
    for (let i = 0; i < width; i += 1) mean[i]! += row[i]!;
    this.#addSquares(row, 0, side - half + 1);
    this.#addSquares(row, side + half, width);
  }

  /** The squares within the QRS are not asked for. */
  #addSquares(row: Float64Array, from: number, to: number): void {
    const squares = this.#squares;
    for (let i = from; i < to; i += 1) {
      const slope = slopeAt(row, i);
      squares[i]! += slope * slope;
    }
  }

  /**
   * The squared error that noise leaves in the mean slope, (mV/s)^2. Away from the QRS, so that a beat
   * placed a sample off does not count as noise.
   */
  noise(): number {
    let squares = 0;
    for (let i = 0; i < width; i += 1) {
      if (Math.abs(i - side) < SHAPE_HALF * SHAPE_RATE) continue;
      squares += this.#squares[i]! - this.count * slopeAt(this.mean, i) ** 2;
    }
    const places = width - 2 * SHAPE_HALF * SHAPE_RATE;
    return Math.max(0, squares) / places / this.count ** 2;
  }
}

/** mV/s, over two steps. */
function slopeAt(row: Float64Array, i: number): number {
  return ((row[Math.min(width - 1, i + 1)]! - row[Math.max(0, i - 1)]!) * SHAPE_RATE) / 2;
}

/** Steps from where the slope rests before the middle to where it first rests behind it, no farther than `back` mV from there. */
function lengthBetween(
  steep: Float64Array,
  edge: number,
  mean: Float64Array,
  back: number,
): number {
  const before = quietFrom(1, steep, -1, edge);
  const level = mean[side - before]!;
  let after = quietFrom(1, steep, 1, edge);
  while (Math.abs(mean[side + after]! - level) > back) {
    after = quietFrom(after + 1, steep, 1, edge);
  }
  return before + after;
}

/**
 * Steps from where the slope rests before the middle to where the main deflection has come back to that level; NaN where
 * the slope rests on the way, or it does not come back. It is no more than the QRS, whatever T follows at once.
 */
function lengthOfMain(steep: Float64Array, edge: number, mean: Float64Array): number {
  const before = quietFrom(1, steep, -1, edge);
  if (Number.isNaN(before)) return Number.NaN;
  const level = mean[side - before]!;
  let top = side;
  for (let i = side - half; i <= side + half; i += 1) {
    if (Math.abs(mean[i]! - level) > Math.abs(mean[top]! - level)) top = i;
  }
  const way = Math.sign(mean[top]! - level);
  let back = top;
  while (back < width && way * (mean[back]! - level) > 0) back += 1;
  const rests = quietFrom(Math.max(1, top - side), steep, 1, edge);
  return back < width && !(rests < back - side) ? back - side + before : Number.NaN;
}

/** Steps from the middle, going one way, to where the slope first rests from a step on; NaN if nowhere. */
function quietFrom(first: number, steep: Float64Array, way: number, edge: number): number {
  const rest = Math.round(REST * SHAPE_RATE);
  for (let from = first; from < side; from += 1) {
    let quiet = 0;
    while (quiet < rest && from + quiet <= side && steep[side + way * (from + quiet)]! < edge) {
      quiet += 1;
    }
    if (quiet === rest) return from;
  }
  return Number.NaN;
}
