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
  const fade = steps(0.02);
  const size = shape.length + shift;
  for (let i = 0; i < size && start + i < trace.length; i++) {
    const from = Math.min(shape.length - 1, Math.max(0, i - shift));
    const weight = Math.min(1, (size - i) / fade);
    trace[start + i]! -= scale * weight * shape[from]!;
  }
}

function drawLine(trace: Float64Array, from: number, to: number): void {
  const start = Math.max(0, from);
  const end = Math.min(trace.length - 1, to);
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
