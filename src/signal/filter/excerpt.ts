import type { Channel } from '../waveform.js';
import { PIECE, pieces } from './pieces.js';

/**
 * The stretch from `from` to `to` (s) at `rate` Hz, read on the straight line between samples; NaN
 * outside the lead or where a sample is missing.
 */
export function excerpt(lead: Channel, from: number, to: number, rate: number): Float64Array {
  const out = new Float64Array(valuesBetween(from, to, rate));
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
  if (from >= 0 && (from + (count - 1) / rate) * samplingRate < last) {
    excerptWithin(samples, samplingRate, from, rate, out, start, count);
    return;
  }
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

/**
 * The same where the lead reaches beyond either end: most excerpts, as nearly all beats lie within it. No place is
 * negative, so to take off its fraction (`| 0`) gives the sample to its left, in one step of the processor.
 */
function excerptWithin(
  samples: Float64Array,
  samplingRate: number,
  from: number,
  rate: number,
  out: Float64Array,
  start: number,
  count: number,
): void {
  for (let i = 0; i < count; i += 1) {
    const at = (from + i / rate) * samplingRate;
    const left = at | 0;
    const rest = at - left;
    const here = samples[left]!;
    out[start + i] = rest < 1e-9 ? here : here + (samples[left + 1]! - here) * rest;
  }
}

/**
 * The stretches of `length` values from each of `starts` (s) on at `rate` Hz, those in which nothing is
 * missing. They lie in one piece of memory: a day has more beats than arrays of their own are cheap for.
 */
export function wholeExcerpts(
  lead: Channel,
  starts: readonly number[],
  length: number,
  rate: number,
): Float64Array[] {
  const all = new Float64Array(starts.length * length);
  const rows: Float64Array[] = [];
  for (const start of starts) {
    const at = rows.length * length;
    excerptInto(lead, start, rate, all, at, length);
    if (isWhole(all, at, at + length)) rows.push(all.subarray(at, at + length));
  }
  return rows;
}

/** Sample by sample mean of the same stretches, and how many those are. */
export function averageExcerpt(
  lead: Channel,
  starts: readonly number[],
  length: number,
  rate: number,
): { readonly mean: Float64Array; readonly count: number } {
  const mean = new Float64Array(length);
  const row = new Float64Array(length);
  let count = 0;
  for (const start of starts) {
    excerptInto(lead, start, rate, row, 0, length);
    if (!isWhole(row)) continue;
    count += 1;
    addInto(mean, row);
  }
  for (let i = 0; i < length; i += 1) mean[i]! /= count;
  return { mean, count };
}

/** Values from `from` to `to` (s) at `rate` Hz, both ends included. */
export const valuesBetween = (from: number, to: number, rate: number): number =>
  Math.max(1, Math.round((to - from) * rate) + 1);

/** Whether every value is there, from place `from` to `to` (excluded). */
export function isWhole(values: Float64Array, from = 0, to = values.length): boolean {
  for (let i = from; i < to; i += 1) if (Number.isNaN(values[i])) return false;
  return true;
}

/** Less the straight line that fits best: takes out what is left of wander and of a T wave's tail. */
export const level = (values: Float64Array): Float64Array =>
  levelInto(values, new Float64Array(values.length));

/** The same into `out`, which may be the values themselves. */
export function levelInto(values: Float64Array, out: Float64Array): Float64Array {
  const centre = (values.length - 1) / 2;
  let sum = 0;
  let tilt = 0;
  for (let i = 0; i < values.length; i += 1) {
    sum += values[i]!;
    tilt += (i - centre) * values[i]!;
  }
  // The sum of (i - centre)² in closed form.
  const reach = (values.length * (values.length ** 2 - 1)) / 12;
  const middle = sum / values.length;
  const slope = reach > 0 ? tilt / reach : 0;
  for (let i = 0; i < out.length; i += 1) out[i] = values[i]! - middle - slope * (i - centre);
  return out;
}

/** The rows themselves, each less its line. */
export function levelled(rows: readonly Float64Array[]): readonly Float64Array[] {
  for (const row of rows) levelInto(row, row);
  return rows;
}

/** Mean squared distance of two rows of equal length. */
function squaredDistance(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i += 1) sum += (one[i]! - other[i]!) ** 2;
  return sum / one.length;
}

/** Mean squared distance of each row from one, on average. */
export function scatterAbout(middle: Float64Array, rows: readonly Float64Array[]): number {
  let sum = 0;
  for (const row of rows) sum += squaredDistance(row, middle);
  return rows.length === 0 ? Number.NaN : sum / rows.length;
}

/** Sample by sample mean of rows of equal length; empty for none. */
export function average(rows: readonly Float64Array[]): Float64Array {
  const out = new Float64Array(rows[0]?.length ?? 0);
  for (const row of rows) addInto(out, row);
  for (let i = 0; i < out.length; i += 1) out[i]! /= rows.length;
  return out;
}

function addInto(sum: Float64Array, row: Float64Array): void {
  for (let i = 0; i < sum.length; i += 1) sum[i]! += row[i]!;
}

/**
 * The lead without power-line hum: means over one period of 50 and one of 60 Hz, which each leave
 * nothing of a sine of that period. A P wave keeps about three quarters of its height.
 */
export function withoutMains(lead: Channel): Channel {
  const { samples, samplingRate } = lead;
  const once = meanOver(samples, Math.max(1, Math.round(samplingRate / 50)));
  return { ...lead, samples: meanOver(once, Math.max(1, Math.round(samplingRate / 60)), once) };
}

/**
 * Running mean of `width` samples around each; a missing sample makes the samples near it missing.
 * Beyond either end the lead goes on as it begins or ends. `out` may be the samples themselves.
 */
function meanOver(
  samples: Float64Array,
  width: number,
  out: Float64Array = new Float64Array(samples.length),
): Float64Array {
  const before = Math.floor(width / 2);
  let window = { sum: 0, missing: 0 };
  for (let i = -before; i < width - before; i += 1) window = entered(window, samples, i);
  // What the window is about to leave, as it was.
  const behind = new Float64Array(before + PIECE).fill(samples[0] ?? Number.NaN);
  for (const [from, to] of pieces(samples.length)) {
    behind.set(samples.subarray(from, to), before);
    window = meanPiece(samples, behind, width, from, to, window, out);
    behind.copyWithin(0, to - from);
  }
  return out;
}

/** What the window holds. */
interface Window {
  readonly sum: number;
  readonly missing: number;
}

function entered({ sum, missing }: Window, samples: Float64Array, i: number): Window {
  const x = samples[held(i, samples.length - 1)]!;
  return Number.isNaN(x) ? { sum, missing: missing + 1 } : { sum: sum + x, missing };
}

const held = (i: number, last: number): number => (i < 0 ? 0 : Math.min(i, last));

/** The window lies around each of the places from `from` to `to`, and then moves on by one. */
function meanPiece(
  samples: Float64Array,
  behind: Float64Array,
  width: number,
  from: number,
  to: number,
  before: Window,
  out: Float64Array,
): Window {
  const last = samples.length - 1;
  const ahead = width - Math.floor(width / 2);
  let { sum, missing } = before;
  for (let i = from; i < to; i += 1) {
    out[i] = missing > 0 ? Number.NaN : sum / width;
    const leaving = behind[i - from]!;
    const entering = samples[Math.min(i + ahead, last)]!;
    if (Number.isNaN(leaving)) missing -= 1;
    else sum -= leaving;
    if (Number.isNaN(entering)) missing += 1;
    else sum += entering;
  }
  return { sum, missing };
}
