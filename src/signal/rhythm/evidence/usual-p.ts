import { average, valuesBetween, wholeExcerpts } from '../../filter/excerpt.js';
import { mean } from '../../filter/spread.js';
import type { MarkedBeat, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';

// Lengths of P follow Table 2.4 of Small Animal Internal Medicine, 6th ed.; the constants built on them are choices of the method: not clinical numbers.

/** Half of the stretch that holds a P of a dog or cat (0.035 to 0.05 s) and its shoulders, s. */
export const HALF = 0.028;
/** Atria need not wait exactly alike after a beat; s. */
export const PLAY = 0.016;
/** Either end of a P's stretch that it does not reach, s. */
const END = 0.012;
/** Where the end of QRS is not marked, s after R. */
const QRS_HALF = 0.03;
/** In either half of the beats that the usual P is taken from. */
const HALF_ENOUGH = 3;

/**
 * The usual P on its base line, its peak in the middle, and the same from either half of the beats:
 * they share no noise.
 */
export interface UsualP {
  readonly whole: Float64Array;
  readonly halves: readonly [Float64Array, Float64Array];
}

/** A beat whose P is marked. */
export type WithP = MarkedBeat & { readonly p: Wave };

/** Whether the P of a beat is marked. */
export const hasP = (beat: MarkedBeat): beat is WithP => beat.p !== null;

/** From the peak of P to R, s. */
export const aheadOf = ({ time, p }: WithP): number => time - p.peak;

/** From R to the end of QRS, s. */
export const lengthAfterR = ({ time, qrs }: MarkedBeat): number =>
  (qrs?.end ?? time + QRS_HALF) - time;

/** The P of these beats at `rate` Hz, `ahead` s before R: a peak that was marked in noise is a peak of that noise too. */
export function usualP(
  lead: Channel,
  led: readonly MarkedBeat[],
  ahead: number,
  rate: number,
): UsualP | null {
  const starts: number[] = [];
  for (const { time } of led) starts.push(time - ahead - HALF);
  const rows = wholeExcerpts(lead, starts, valuesBetween(-HALF, HALF, rate), rate);
  if (rows.length < 2 * HALF_ENOUGH) return null;
  const end = Math.round(END * rate);
  return {
    whole: onLine(average(rows), end),
    halves: [
      onLine(average(rows.filter(isEvenPlace)), end),
      onLine(average(rows.filter(isOddPlace)), end),
    ],
  };
}

const isEvenPlace = (_: Float64Array, place: number): boolean => place % 2 === 0;
const isOddPlace = (_: Float64Array, place: number): boolean => place % 2 === 1;

/** Less the straight line between its ends: a P stands on the line, and is 0 beyond. */
function onLine(row: Float64Array, end: number): Float64Array {
  const last = row.length - 1;
  const first = mean([...row.subarray(0, end)]);
  const tilt = (mean([...row.subarray(-end)]) - first) / (row.length - end);
  return row.map((value, i) =>
    i < end - 1 || i > last - end + 1 ? 0 : value - first - tilt * (i - (end - 1) / 2),
  );
}
