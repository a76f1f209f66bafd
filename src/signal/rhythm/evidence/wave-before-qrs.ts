import { averageExcerpt, valuesBetween } from '../../filter/excerpt.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_RATE } from './atrial.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A P that leads to a wide QRS peaks so long before R, s; its stretch begins earlier by a half of it. */
const AHEAD = { most: 0.15, least: 0.045 };
/** Half of the stretch that holds a P, and how far it reaches at half of its height, s: a pacing spike is over sooner. */
const HALF = 0.03;
const WIDE = 0.012;
/** mV: what is lower is noise. */
const LEAST = 0.02;
/** Where the line rests it lies within this share of the wave around where it lay before, for so many s. */
const REST = { within: 0.25, lasts: 0.008 };
/** In either half of the beats. */
const ENOUGH = 4;

/**
 * Whether a wave as short as a P stands alone before the QRS of all beats, though too near for one to be marked: in the
 * average it rises from a line to which it comes back, and the line rests there before the stroke begins. A P that has
 * nothing to do with the beats is gone from their average; the first stroke of a ventricle does not come to rest. Both
 * halves of the beats must show it, which share no noise.
 */
export function isWaveBeforeQrs(beats: readonly MarkedBeat[], quiet: readonly Channel[]): boolean {
  const halves = [0, 1].map((rest) => beats.filter((_, i) => i % 2 === rest));
  return quiet.some((lead) => halves.every((half) => isIn(lead, half)));
}

function isIn(lead: Channel, beats: readonly MarkedBeat[]): boolean {
  const starts = beats.map(({ time }) => time - AHEAD.most - HALF);
  const length = valuesBetween(-AHEAD.most - HALF, 0, P_RATE);
  const { mean, count } = averageExcerpt(lead, starts, length, P_RATE);
  if (count < ENOUGH) return false;
  const half = Math.round(HALF * P_RATE);
  const last = length - 1 - Math.round(AHEAD.least * P_RATE);
  for (let i = half; i <= last; i += 1) if (standsAlone(i, half, mean)) return true;
  return false;
}

/** Whether a wave peaks at a place, comes back to the line that it rose from, and the line rests there. */
function standsAlone(at: number, half: number, row: Float64Array): boolean {
  const line = row[at - half]!;
  const height = row[at]! - line;
  if (!(Math.abs(height) >= LEAST) || !isTip(at, row, Math.sign(height))) return false;
  const over = (k: number): number => (row[k]! - line) / height;
  let from = at;
  while (from > at - half && over(from) > 0.5) from -= 1;
  let to = at;
  while (to < row.length - 1 && over(to) > 0.5) to += 1;
  if (to - from < WIDE * P_RATE || to - at > half) return false;
  const rest = Math.max(2, Math.round(REST.lasts * P_RATE));
  let resting = 0;
  for (let k = to; k <= at + 2 * half && k < row.length; k += 1) {
    resting = Math.abs(over(k)) <= REST.within ? resting + 1 : 0;
    if (resting > rest) return true;
  }
  return false;
}

const isTip = (at: number, row: Float64Array, sign: number): boolean =>
  sign * row[at]! >= sign * row[at - 1]! && sign * row[at]! > sign * row[at + 1]!;
