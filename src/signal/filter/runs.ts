import { pieces } from './pieces.js';

/** Sample positions `from` (included) to `to` (excluded). */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** The unbroken stretches of finite samples, in order. */
export const finiteRuns = (samples: Float64Array): Run[] =>
  runsBetween(samples, firstFinite, firstMissing);

/** The unbroken stretches of samples that are not finite, in order. */
export const gaps = (samples: Float64Array): Run[] =>
  runsBetween(samples, firstMissing, firstFinite);

/** The unbroken stretches of at least `least` samples that all equal `value`, in order. */
export const runsOf = (value: number, samples: Float64Array, least: number): Run[] =>
  runsBetween(samples, firstEqual, firstOther, value).filter(({ from, to }) => to - from >= least);

/** The first place from `from` to `to` (excluded) that is sought; `to` where there is none. */
type Search = (samples: Float64Array, from: number, to: number, value: number) => number;

/** From each place where a stretch begins to where it ends, or the samples do. */
function runsBetween(samples: Float64Array, begins: Search, ends: Search, value = 0): Run[] {
  const runs: Run[] = [];
  let from = -1;
  for (const [first, end] of pieces(samples.length)) {
    let at = first;
    while (at < end) {
      const isWithin = from >= 0;
      at = isWithin ? ends(samples, at, end, value) : begins(samples, at, end, value);
      if (at === end) break;
      if (isWithin) runs.push({ from, to: at });
      from = isWithin ? -1 : at;
    }
  }
  if (from >= 0) runs.push({ from, to: samples.length });
  return runs;
}

function firstFinite(samples: Float64Array, from: number, to: number): number {
  let i = from;
  while (i < to && !Number.isFinite(samples[i])) i++;
  return i;
}

function firstMissing(samples: Float64Array, from: number, to: number): number {
  let i = from;
  while (i < to && Number.isFinite(samples[i])) i++;
  return i;
}

function firstEqual(samples: Float64Array, from: number, to: number, value: number): number {
  let i = from;
  while (i < to && samples[i] !== value) i++;
  return i;
}

function firstOther(samples: Float64Array, from: number, to: number, value: number): number {
  let i = from;
  while (i < to && samples[i] === value) i++;
  return i;
}
