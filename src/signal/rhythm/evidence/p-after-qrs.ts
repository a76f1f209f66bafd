import { averageExcerpt, valuesBetween } from '../../filter/excerpt.js';
import { median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_RATE } from './atrial.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A P has fallen to a fraction of its height this far from its peak, and a T has hardly fallen; s. */
const BEND = 0.017;
/** QRS is over so long after its marked end, s: the corner there bends as sharply. */
const CLEAR = 0.022;
/** From R, s: a wave that peaks sooner is no T; all T peak before the last. */
const EARLY = 0.09;
const T_PEAKED = 0.25;
/** The foot of a T bends less than half as sharply as its peak (a bell: 0.45), of one that leans forward a little more. */
const OF_T = 0.65;
/** mV: what bends less is noise, or the foot of a T. */
const LEAST = 0.03;
/** Fewer beats make no average. */
const ENOUGH = 4;

/**
 * Whether a wave as short as a P stands between QRS and T in the average of the beats, where atria lie that the ventricles
 * or the junction have stirred backwards: what bends the line there more sharply than the foot of the T that follows.
 */
export function isPAfterQrs(beats: readonly MarkedBeat[], quiet: readonly Channel[]): boolean {
  const end = median(beats.flatMap(({ time, qrs }) => (qrs ? [qrs.end - time] : [])));
  const from = end + CLEAR;
  if (beats.length < ENOUGH || !(from < EARLY)) return false;
  return quiet.some((lead) => isIn(lead, beats, from));
}

function isIn(lead: Channel, beats: readonly MarkedBeat[], from: number): boolean {
  const starts = beats.map(({ time }) => time + from - BEND);
  const length = valuesBetween(from - BEND, T_PEAKED + BEND, P_RATE);
  const { mean, count } = averageExcerpt(lead, starts, length, P_RATE);
  if (count < ENOUGH) return false;
  const by = Math.round(BEND * P_RATE);
  const early = Math.round((EARLY - from) * P_RATE);
  let sharpest = 0;
  let later = 0;
  for (let i = by; i + by < length; i += 1) {
    const bend = Math.abs(mean[i]! - (mean[i - by]! + mean[i + by]!) / 2);
    if (i - by <= early) sharpest = Math.max(sharpest, isTip(i, by, mean) ? bend : 0);
    else later = Math.max(later, bend);
  }
  return sharpest >= LEAST && sharpest > OF_T * later;
}

/** Whether the bend at a place is sharper than on both sides, as it is not on the flank of another. */
function isTip(i: number, by: number, mean: Float64Array): boolean {
  const bend = (k: number): number => Math.abs(mean[k]! - (mean[k - by]! + mean[k + by]!) / 2);
  return i > by && bend(i) >= bend(i - 1) && bend(i) > bend(i + 1);
}
