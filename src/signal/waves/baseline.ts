import { medianOfFinite } from '../filter/order-statistics.js';
import { steps } from './grid.js';

/** The trace is at rest from this long to this short before a QRS; in s. */
const beforeQrs = { from: 0.016, to: 0.006 };
/** In a cycle longer than this there is rest between T and the next P as well; in s. */
const longCycle = 0.85;
/** That rest lies after and before the R peaks by this much; in s. */
const diastole = { afterR: 0.42, beforeR: 0.25 };

/**
 * Takes wander out of a lead, in place: a smooth curve (cubic Hermite, slopes after Catmull and Rom)
 * through the trace just before each QRS, and through the middle of long diastoles, becomes 0 mV.
 * `onsets` are the grid positions of QRS onsets, `beats` those of the R peaks, both ascending.
 */
export function takeOutWander(
  samples: Float64Array,
  onsets: readonly number[],
  beats: readonly number[],
): void {
  const knots = knotsOf(samples, onsets, beats);
  if (knots.length === 0) return;
  const first = knots[0]!;
  const last = knots[knots.length - 1]!;
  for (let i = 0; i < Math.min(first.at, samples.length); i++) samples[i]! -= first.level;
  for (let i = last.at; i < samples.length; i++) samples[i]! -= last.level;
  const curve = new Float64Array(4);
  for (let k = 0; k + 1 < knots.length; k++) takeOffBehind(k, knots, samples, curve);
}

/** The curve from a knot to the next, which is laid out in `curve`. */
function takeOffBehind(
  k: number,
  knots: readonly Knot[],
  samples: Float64Array,
  curve: Float64Array,
): void {
  const a = knots[k]!;
  const b = knots[k + 1]!;
  const length = b.at - a.at;
  const leaving = slopeAt(knots, k) * length;
  const arriving = slopeAt(knots, k + 1) * length;
  const rise = b.level - a.level;
  curve[0] = a.level;
  curve[1] = leaving;
  curve[2] = 3 * rise - 2 * leaving - arriving;
  curve[3] = leaving + arriving - 2 * rise;
  takeOff(samples, a.at, length, curve);
}

/** The curve from one knot to the next: its level, and what u, u² and u³ count for. */
function takeOff(samples: Float64Array, from: number, length: number, curve: Float64Array): void {
  const level = curve[0]!;
  const leaving = curve[1]!;
  const square = curve[2]!;
  const cubic = curve[3]!;
  // A knot may lie before the lead; a loop that reads but one value from beyond an array is slow in all others.
  const end = Math.min(length, samples.length - from);
  for (let i = Math.max(0, -from); i < end; i++) {
    const u = i / length;
    samples[from + i]! -= level + u * (leaving + u * (square + u * cubic));
  }
}

interface Knot {
  readonly at: number;
  readonly level: number;
}

function slopeAt(knots: readonly Knot[], k: number): number {
  const a = knots[Math.max(0, k - 1)]!;
  const b = knots[Math.min(knots.length - 1, k + 1)]!;
  return a === b ? 0 : (b.level - a.level) / (b.at - a.at);
}

function knotsOf(
  samples: Float64Array,
  onsets: readonly number[],
  beats: readonly number[],
): Knot[] {
  const knots: Knot[] = [];
  for (let k = 0; k < onsets.length; k++) {
    addKnots(knots, samples, onsets[k]!, beats[k - 1], beats[k]!);
  }
  return knots;
}

/** The one before a QRS, after that of the diastole if it is long. */
function addKnots(
  knots: Knot[],
  samples: Float64Array,
  onset: number,
  previous: number | undefined,
  beat: number,
): void {
  if (previous !== undefined && beat - previous > steps(longCycle)) {
    const from = previous + steps(diastole.afterR);
    const to = beat - steps(diastole.beforeR);
    // A P wave that is not followed covers less than half of so long a rest.
    const middle = (from + to) / 2;
    const half = Math.min((to - from) / 2, steps(0.12));
    addKnot(knots, samples, Math.round(middle - half), Math.round(middle + half), medianOf);
  }
  addKnot(knots, samples, onset - steps(beforeQrs.from), onset - steps(beforeQrs.to), meanOf);
}

/** The trace between two samples, both included, as one knot, unless there is one nearby or nothing to read. */
function addKnot(
  knots: Knot[],
  samples: Float64Array,
  from: number,
  to: number,
  levelOf: (samples: Float64Array, from: number, end: number) => number,
): void {
  const level = levelOf(samples, Math.max(0, from), Math.min(samples.length, Math.max(0, to + 1)));
  const at = Math.round((from + to) / 2);
  const before = knots.at(-1);
  if (Number.isFinite(level) && (!before || at > before.at + steps(0.06)))
    knots.push({ at, level });
}

const medianOf = (samples: Float64Array, from: number, end: number): number =>
  medianOfFinite(samples.subarray(from, end));

/** NaN for none. */
function meanOf(samples: Float64Array, from: number, end: number): number {
  let sum = 0;
  for (let i = from; i < end; i++) sum += samples[i]!;
  return sum / (end - from);
}
