import { medianOfFinite, quantileOfFinite } from '../filter/order-statistics.js';
import { LOUD, MIDDLE_BEND } from './bursts.js';
import type { Blemish } from './span.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Each part is this long, and of so many values at the least; in s. Each begins in the middle of the one before. */
const judged = { seconds: 0.06, values: 10 };
/** Parts in a row: 0.18 s. A QRS fills two that stand side by side, however notched it is, and its T bends too little. */
const fewest = 5;
/** Hz; at higher rates neighbouring values differ less, of the heart as of what noise a filter leaves. */
const coarse = 500;
/** Of the bends of a part so many are loud, as half are in noise that is just loud enough. */
const filled = 1 / 2;
/** Sign changes of the second difference, a step and a second: a notched QRS has a third of a step, mains hum 120 a second. */
const rough = { aStep: 0.42, aSecond: 140 };
/** Parts of a quarter of a second, spread over the lead, that tell its usual hiss. */
const looked = { parts: 240, seconds: 0.25 };

/**
 * Stretches of noise of a fifth of a second, too short for `bursts`: a touch of the electrosurgery, an electrode that is
 * brushed. The strokes in them are early and wide, and would be told as beats. `samples` in mV, `rate` in Hz.
 */
export function shortBursts(samples: Float64Array, rate: number): Blemish[] {
  const half = Math.round(Math.max(judged.values, judged.seconds * rate) / 2);
  const changes = Math.min(rough.aStep, rough.aSecond / rate) * 2 * half;
  const recorder = LOUD.recorder * Math.min(1, coarse / rate);
  const level = Math.max(recorder, LOUD.usual * usualHiss(samples, rate)) * MIDDLE_BEND;
  const found: Blemish[] = [];
  let row = 0;
  let last: Roughness = SMOOTH;
  let from = 1;
  for (; from + half < samples.length; from += half) {
    const next = roughness(samples, from, from + half, level);
    const isNoise =
      last.loud + next.loud >= filled * 2 * half && last.changes + next.changes > changes;
    last = next;
    if (isNoise) row += 1;
    else {
      addRow(row, from, half, found);
      row = 0;
    }
  }
  addRow(row, from, half, found);
  return found;
}

/** A burst begins and ends within a part. @param end of the last half of a part that belongs to it */
function addRow(row: number, end: number, half: number, found: Blemish[]): void {
  if (row < fewest) return;
  found.push({ from: Math.max(0, end - (row + 3) * half), to: end + 2 * half, why: 'noise' });
}

/** How many bends of a stretch are loud, and how often they turn from up to down. */
interface Roughness {
  readonly loud: number;
  readonly changes: number;
}

const SMOOTH: Roughness = { loud: 0, changes: 0 };

function roughness(samples: Float64Array, from: number, to: number, level: number): Roughness {
  let loud = 0;
  let changes = 0;
  let before = samples[from]! - 2 * samples[from - 1]! + (samples[from - 2] ?? Number.NaN);
  for (let i = from; i < to; i += 1) {
    const bend = samples[i + 1]! - 2 * samples[i]! + samples[i - 1]!;
    if (bend > level || bend < -level) loud += 1;
    if (bend * before < 0) changes += 1;
    before = bend;
  }
  return { loud, changes };
}

/** The root mean square that white noise would have in the quieter parts of a lead, mV. */
function usualHiss(samples: Float64Array, rate: number): number {
  const size = Math.round(looked.seconds * rate);
  const step = size * Math.max(1, Math.floor(samples.length / size / looked.parts));
  const known: number[] = [];
  const bends = new Float64Array(size);
  for (let from = 1; from + size < samples.length; from += step) {
    let count = 0;
    for (let i = from; i < from + size; i += 1) {
      const bend = samples[i + 1]! - 2 * samples[i]! + samples[i - 1]!;
      if (!Number.isNaN(bend)) bends[count++] = Math.abs(bend);
    }
    const middle = count >= size / 2 ? medianOfFinite(bends.subarray(0, count)) : 0;
    // A line that is flat or clipped tells nothing of the rest.
    if (middle > 0) known.push(middle / MIDDLE_BEND);
  }
  // More than half of the strip may be burst: the quieter quarter is the usual.
  return known.length > 0 ? quantileOfFinite(known, 0.25) : 0;
}
