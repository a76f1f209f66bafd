import type { Channel } from '../waveform.js';

/**
 * The stretch from `from` to `to` (s) at `rate` Hz, read on the straight line between samples; NaN
 * outside the lead or where a sample is missing.
 */
export function excerpt(lead: Channel, from: number, to: number, rate: number): Float64Array {
  const out = new Float64Array(Math.max(1, Math.round((to - from) * rate) + 1));
  excerptInto(lead, from, rate, out, 0, out.length);
  return out;
}

/** The same, `count` values from `from` on, laid into `out` from place `start` on. */
export function excerptInto(
  { samples, samplingRate }: Channel,
  from: number,
  rate: number,
  out: Float64Array,
  start: number,
  count: number,
): void {
  const last = samples.length - 1;
  for (let i = 0; i < count; i += 1) {
    const at = (from + i / rate) * samplingRate;
    const left = Math.floor(at);
    const rest = at - left;
    let value = Number.NaN;
    if (left >= 0 && left < last) {
      const here = samples[left]!;
      // Next to a missing sample the one that is hit can still be read.
      value = rest < 1e-9 ? here : here + (samples[left + 1]! - here) * rest;
    } else if (left === last && rest < 1e-9) {
      value = samples[last]!;
    }
    out[start + i] = value;
  }
}

/** Whether every value is there, from place `from` to `to` (excluded). */
export function isWhole(values: Float64Array, from = 0, to = values.length): boolean {
  for (let i = from; i < to; i += 1) if (Number.isNaN(values[i])) return false;
  return true;
}

/** Less the straight line that fits best: takes out what is left of wander and of a T wave's tail. */
export function level(values: Float64Array): Float64Array {
  const centre = (values.length - 1) / 2;
  let sum = 0;
  let tilt = 0;
  let reach = 0;
  for (let i = 0; i < values.length; i += 1) {
    sum += values[i]!;
    tilt += (i - centre) * values[i]!;
    reach += (i - centre) ** 2;
  }
  const middle = sum / values.length;
  const slope = reach > 0 ? tilt / reach : 0;
  const out = new Float64Array(values.length);
  for (let i = 0; i < out.length; i += 1) out[i] = values[i]! - middle - slope * (i - centre);
  return out;
}

/** Mean squared distance of two rows of equal length. */
export function squaredDistance(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i += 1) sum += (one[i]! - other[i]!) ** 2;
  return sum / one.length;
}

/** Sample by sample mean of rows of equal length; empty for none. */
export function average(rows: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(rows[0]?.length ?? 0);
  for (const row of rows) for (let i = 0; i < out.length; i += 1) out[i]! += row[i]!;
  for (let i = 0; i < out.length; i += 1) out[i]! /= rows.length;
  return out;
}

/**
 * The lead without power-line hum: means over one period of 50 and one of 60 Hz, which each leave
 * nothing of a sine of that period. A P wave keeps about three quarters of its height.
 */
export function withoutMains(lead: Channel): Channel {
  const { samples, samplingRate } = lead;
  const once = meanOver(samples, Math.max(1, Math.round(samplingRate / 50)));
  return { ...lead, samples: meanOver(once, Math.max(1, Math.round(samplingRate / 60))) };
}

/** Running mean of `width` samples around each; a missing sample makes the samples near it missing. */
function meanOver(samples: Float64Array, width: number): Float64Array {
  const out = new Float64Array(samples.length);
  const before = Math.floor(width / 2);
  const last = samples.length - 1;
  // Beyond either end the lead goes on as it begins or ends.
  const held = (index: number): number => samples[Math.max(0, Math.min(last, index))]!;
  let sum = 0;
  let missing = 0;
  for (let k = -before; k < width - before; k += 1) {
    const entering = held(k);
    if (Number.isNaN(entering)) missing += 1;
    else sum += entering;
  }
  for (let i = 0; i <= last; i += 1) {
    out[i] = missing > 0 ? Number.NaN : sum / width;
    const leaving = held(i - before);
    if (Number.isNaN(leaving)) missing -= 1;
    else sum -= leaving;
    const entering = held(i - before + width);
    if (Number.isNaN(entering)) missing += 1;
    else sum += entering;
  }
  return out;
}
