import {
  type Biquad,
  butterworthHighPass,
  butterworthLowPass,
  runBothThrough,
  runThrough,
} from './biquad.js';
import { finiteRuns, type Run } from './runs.js';

/** The ends are prolonged by this much before filtering, so that their transients fall outside. */
const prolongedBy = 0.5;

/**
 * Filters forwards and then backwards: no delay, no phase shift, the magnitude response squared.
 * Each unbroken run of finite samples is filtered on its own; other samples stay NaN and touch
 * nothing. `samples` in any unit at `rate` Hz -> a new array of the same length and unit.
 */
function zeroPhase(samples: Float64Array, rate: number, sections: readonly Biquad[]): Float64Array {
  const runs = finiteRuns(samples);
  const first = runs[0];
  // Most leads are one run from end to end, which need not be laid beside others.
  if (first && first.to - first.from === samples.length) return filtered(samples, rate, sections);
  const out = new Float64Array(samples.length).fill(Number.NaN);
  for (const { from, to } of runs) {
    out.set(filtered(samples.subarray(from, to), rate, sections), from);
  }
  return out;
}

const padOf = (run: Float64Array, rate: number): number =>
  Math.min(run.length - 1, Math.round(prolongedBy * rate));

function filtered(run: Float64Array, rate: number, sections: readonly Biquad[]): Float64Array {
  const pad = padOf(run, rate);
  const work = prolonged(run, pad);
  for (const section of sections) {
    runThrough(section, work, 1);
    runThrough(section, work, -1);
  }
  return work.subarray(pad, pad + run.length);
}

/**
 * Band-pass from `low` to `high` Hz without delay: a Butterworth high-pass of order 2 and low-pass
 * of order 4, each run both ways, so the response is -6 dB at either corner. The upper edge is the
 * steeper one because mains lies not far above it.
 */
export function bandPass(
  samples: Float64Array,
  rate: number,
  low: number,
  high: number,
): Float64Array {
  return zeroPhase(samples, rate, bandSections({ low, high }, rate));
}

/** Corners of a band, Hz. */
export interface Band {
  readonly low: number;
  readonly high: number;
}

function bandSections({ low, high }: Band, rate: number): readonly Biquad[] {
  return [...butterworthHighPass(2, low, rate), ...butterworthLowPass(4, high, rate)];
}

/** What `bandPass` gives for either of two bands, in little more than the time of one. `runs` are the finite ones of the samples. */
export function bandPassBoth(
  samples: Float64Array,
  runs: readonly Run[],
  rate: number,
  one: Band,
  other: Band,
): readonly [Float64Array, Float64Array] {
  const sections = bandSections(one, rate);
  const others = bandSections(other, rate);
  const first = runs[0];
  if (first && first.to - first.from === samples.length) {
    return filteredBoth(samples, rate, sections, others);
  }
  const out = new Float64Array(samples.length).fill(Number.NaN);
  const otherOut = out.slice();
  for (const { from, to } of runs) {
    const found = filteredBoth(samples.subarray(from, to), rate, sections, others);
    out.set(found[0], from);
    otherOut.set(found[1], from);
  }
  return [out, otherOut];
}

function filteredBoth(
  run: Float64Array,
  rate: number,
  sections: readonly Biquad[],
  others: readonly Biquad[],
): readonly [Float64Array, Float64Array] {
  const pad = padOf(run, rate);
  const work = prolonged(run, pad);
  const otherWork = work.slice();
  for (let k = 0; k < sections.length; k += 1) {
    runBothThrough([sections[k]!, others[k]!], work, otherWork, 1);
    runBothThrough([sections[k]!, others[k]!], work, otherWork, -1);
  }
  return [work.subarray(pad, pad + run.length), otherWork.subarray(pad, pad + run.length)];
}

/**
 * Adds `pad` mirrored samples at either end. Mirrored in time only: turning them about the end
 * point as well would keep the slope, but where mains rides on the signal the end point lies off
 * the mean, and the step between the two means looks like a QRS.
 */
function prolonged(run: Float64Array, pad: number): Float64Array {
  const n = run.length;
  const work = new Float64Array(n + 2 * pad);
  work.set(run, pad);
  for (let k = 1; k <= pad; k++) {
    work[pad - k] = run[k]!;
    work[pad + n - 1 + k] = run[n - 1 - k]!;
  }
  return work;
}
