import { medianOfFinite, quantileOfFinite } from '../filter/order-statistics.js';
import { LOUD, MIDDLE_BEND } from './bursts.js';
import type { Blemish } from './span.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Each part is this long, and of so many values at the least; in s. */
const judged = { seconds: 0.06, values: 10 };
/** A QRS fills two parts, however notched it is, and its T bends too little. */
const fewest = 3;
/** Of the bends of a part so many are loud, as half are in noise that is just loud enough. */
const filled = 1 / 2;
/** Sign changes of the second difference, a step and a second: a notched QRS has a third of a step, mains hum 120 a second. */
const rough = { aStep: 0.45, aSecond: 140 };
/** Parts of a quarter of a second, spread over the lead, that tell its usual hiss. */
const looked = { parts: 240, seconds: 0.25 };

/**
 * Stretches of noise of a fifth of a second, too short for `bursts`: a touch of the electrosurgery, an electrode that is
 * brushed. The strokes in them are early and wide, and would be told as beats. `samples` in mV, `rate` in Hz.
 */
export function shortBursts(samples: Float64Array, rate: number): Blemish[] {
  const size = Math.max(judged.values, Math.round(judged.seconds * rate));
  const changes = Math.min(rough.aStep, rough.aSecond / rate) * size;
  const level = Math.max(LOUD.recorder, LOUD.usual * usualHiss(samples, rate)) * MIDDLE_BEND;
  const found: Blemish[] = [];
  let row = 0;
  for (let from = 1; from + size < samples.length; from += size) {
    if (isNoise(samples, from, from + size, level, changes)) row += 1;
    else {
      addRow(row, from, size, found);
      row = 0;
    }
  }
  addRow(row, samples.length, size, found);
  return found;
}

/** A burst begins and ends within a part. */
function addRow(row: number, end: number, size: number, found: Blemish[]): void {
  if (row < fewest) return;
  found.push({ from: Math.max(0, end - (row + 1) * size), to: end + size, why: 'noise' });
}

/** Whether enough of the bends of a part are loud, and go up and down as noise does. */
function isNoise(
  samples: Float64Array,
  from: number,
  to: number,
  level: number,
  least: number,
): boolean {
  let loud = 0;
  let changes = 0;
  let before = 0;
  for (let i = from; i < to; i += 1) {
    const bend = samples[i + 1]! - 2 * samples[i]! + samples[i - 1]!;
    if (bend > level || bend < -level) loud += 1;
    if (bend * before < 0) changes += 1;
    before = bend;
  }
  return loud >= filled * (to - from) && changes > least;
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
