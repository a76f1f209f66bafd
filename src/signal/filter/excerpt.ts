import type { Channel } from '../waveform.js';

/** The lead's value at a time in s, on the straight line between samples; NaN outside or where missing. */
function valueAt({ samples, samplingRate }: Channel, time: number): number {
  const at = time * samplingRate;
  const left = Math.floor(at);
  const here = samples[left] ?? Number.NaN;
  const rest = at - left;
  return rest < 1e-9 ? here : here + ((samples[left + 1] ?? Number.NaN) - here) * rest;
}

/** The stretch from `from` to `to` (s) at `rate` Hz. */
export function excerpt(lead: Channel, from: number, to: number, rate: number): Float64Array {
  const out = new Float64Array(Math.max(1, Math.round((to - from) * rate) + 1));
  for (let i = 0; i < out.length; i += 1) out[i] = valueAt(lead, from + i / rate);
  return out;
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
  return values.map((value, i) => value - middle - slope * (i - centre));
}

/** Sample by sample mean of rows of equal length; empty for none. */
export function average(rows: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(rows[0]?.length ?? 0);
  for (const row of rows) for (let i = 0; i < out.length; i += 1) out[i]! += row[i]! / rows.length;
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
  let sum = 0;
  let missing = 0;
  const count = (index: number, sign: 1 | -1): void => {
    const value = samples[Math.min(samples.length - 1, Math.max(0, index))]!;
    if (Number.isNaN(value)) missing += sign;
    else sum += sign * value;
  };
  for (let k = -before; k < width - before; k += 1) count(k, 1);
  for (let i = 0; i < samples.length; i += 1) {
    out[i] = missing > 0 ? Number.NaN : sum / width;
    count(i - before, -1);
    count(i - before + width, 1);
  }
  return out;
}
