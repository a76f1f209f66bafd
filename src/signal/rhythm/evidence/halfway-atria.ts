import { countBefore } from '../../filter/ascending.js';
import {
  average,
  averageExcerpt,
  excerpt,
  isWhole,
  level,
  valuesBetween,
} from '../../filter/excerpt.js';
import { correlation, median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import type { AtrialClock } from './atrial.js';
import { P_HALF, P_RATE } from './atrial.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** The part of a beat that is taken out, s from R; after it at most this share of the usual interval. */
const BEAT = { before: 0.06, after: 0.4, share: 0.85 };
/** Distances this near to the usual one, as a share, are one cycle. */
const ONE = 0.15;
/** Fewer places tell nothing. */
const ENOUGH = 6;
/** Of the shape of the P waves that were seen, at least. */
const ALIKE = 0.8;

/**
 * How much of a P stands halfway between the P waves that were seen, 1 for a whole one: where about every
 * second P falls into QRS or T, as it does where atria beat some two times to one QRS that they do not lead,
 * only the others are marked. The averaged beat is taken out of the trace, and what is left is averaged over
 * these places: P waves that march with no regard to the QRS survive that. 0 where nothing of their shape
 * is there or too little can be seen.
 */
export function halfwayAtria(
  { times, cycle }: AtrialClock,
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
): number {
  const places = times.slice(1).flatMap((time, i) => {
    const gap = time - times[i]!;
    return Math.abs(gap / cycle - 1) < ONE ? [times[i]! + gap / 2] : [];
  });
  if (places.length < ENOUGH || beats.length < ENOUGH) return 0;
  const usual = median(beats.slice(1).map(({ time }, i) => time - beats[i]!.time));
  const after = Math.min(BEAT.after, BEAT.share * usual);
  const shares = leads.map((lead) => {
    const beat = averageExcerpt(
      lead,
      beats.map(({ time }) => time - BEAT.before),
      valuesBetween(-BEAT.before, after, P_RATE),
      P_RATE,
    );
    if (beat.count < ENOUGH) return 0;
    const left = (at: number) => withoutBeat(lead, at, beats, beat.mean);
    const seen = averaged(times.map(left));
    const between = averaged(places.map(left));
    if (!seen || !between || correlation(seen, between) < ALIKE) return 0;
    return power(between) / power(seen);
  });
  return Math.max(...shares, 0);
}

/** The trace around an instant less the averaged beat where one lies. */
function withoutBeat(
  lead: Channel,
  at: number,
  beats: readonly MarkedBeat[],
  mean: Float64Array,
): Float64Array {
  const row = excerpt(lead, at - P_HALF, at + P_HALF, P_RATE);
  for (let i = 0; i < row.length; i += 1) {
    const time = at - P_HALF + i / P_RATE;
    const next = countBefore(beats, (beat) => beat.time - BEAT.before > time);
    const before = beats[next - 1];
    if (!before) continue;
    const place = (time - before.time + BEAT.before) * P_RATE;
    const k = Math.floor(place);
    if (k + 1 < mean.length) row[i]! -= mean[k]! + (mean[k + 1]! - mean[k]!) * (place - k);
  }
  return level(row);
}

function averaged(rows: readonly Float64Array[]): Float64Array | null {
  const whole = rows.filter((row) => isWhole(row));
  return whole.length >= ENOUGH ? average(whole) : null;
}

/** Root of the sum of squares. */
const power = (row: Float64Array): number =>
  Math.sqrt(row.reduce((sum, value) => sum + value * value, 0));
