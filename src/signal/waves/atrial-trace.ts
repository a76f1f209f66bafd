import { steps } from './grid.js';
import type { Mark } from './marks.js';
import type { MarkedGroup } from './ventricles.js';

/**
 * The lead with the ventricles taken out: a straight line in place of each QRS, the fitted T of its
 * group subtracted. What is left is atrial, or noise. NaN around beats that could not be marked.
 */
export function atrialTrace(
  samples: Float64Array,
  beats: readonly number[],
  qrs: readonly (Mark | null)[],
  groups: readonly MarkedGroup[],
): Float64Array {
  const trace = samples.slice();
  for (const group of groups) if (group.t) subtractT(trace, group);
  for (let k = 0; k < beats.length; k++) takeOutQrs(trace, beats[k]!, qrs[k] ?? null);
  return trace;
}

function subtractT(trace: Float64Array, { positions, tShape, fits, qrs }: MarkedGroup): void {
  for (let k = 0; k < positions.length; k++) {
    const fit = fits[k];
    const seen = fit && fit.likeness > 0.7;
    const scale = seen ? Math.min(1.5, Math.max(0.5, fit.scale)) : 1;
    subtract(trace, tShape, positions[k]! + qrs.end, seen ? fit.shift : 0, scale);
  }
}

function takeOutQrs(trace: Float64Array, beat: number, mark: Mark | null): void {
  if (mark) drawLine(trace, mark.onset - 1, mark.end + 1);
  else trace.fill(Number.NaN, Math.max(0, beat - steps(0.08)), Math.max(0, beat + steps(0.12)));
}

/** A T that comes later leaves its ST segment where it was: the first sample is stretched. */
function subtract(
  trace: Float64Array,
  shape: Float64Array,
  start: number,
  shift: number,
  scale: number,
): void {
  const size = shape.length + shift;
  const fade = steps(0.02);
  const end = Math.min(size, trace.length - start);
  for (let i = 0; i < end; i++) {
    const weight = size - i < fade ? scale * ((size - i) / fade) : scale;
    trace[start + i]! -= weight * shape[i > shift ? i - shift : 0]!;
  }
}

function drawLine(trace: Float64Array, from: number, to: number): void {
  // Whole, as are all places of marks; `| 0` says so to the compiler.
  const start = Math.max(0, from) | 0;
  const end = Math.min(trace.length - 1, to) | 0;
  if (end <= start) return;
  const left = meanOf(trace, start - 4, start);
  const right = meanOf(trace, end, end + 4);
  for (let i = start; i <= end; i++) {
    trace[i] = left + ((right - left) * (i - start)) / (end - start);
  }
}

function meanOf(trace: Float64Array, from: number, to: number): number {
  let sum = 0;
  let count = 0;
  for (let i = Math.max(0, from); i <= Math.min(trace.length - 1, to); i++) {
    sum += trace[i]!;
    count++;
  }
  return sum / count;
}
