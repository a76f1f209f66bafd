import { average, levelled, valuesBetween, wholeExcerpts } from '../../filter/excerpt.js';
import { differences, median, share } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_RATE } from './atrial.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** After the end of what was counted, which smoothing carries on, s. */
const CLEAR = 0.022;
/** From R, s, and as a share of the interval: T is over by then. */
const OVER = { after: 0.35, part: 0.7 };
/** A shorter stretch shows no T, and fewer beats no average. */
const SHORTEST = 0.05;
const ENOUGH = 3;
/** Standard errors taken off. */
const MARGIN = 2;

/**
 * How high the T wave is that follows beats on average, mV: at the least (two standard errors), in the lead that shows
 * most. A line that wanders, which is marked as T here and there, leaves none. NaN where there is no room for one.
 */
export function averageRecovery(beats: readonly MarkedBeat[], quiet: readonly Channel[]): number {
  const times = beats.map(({ time }) => time);
  const from = median(beats.flatMap(({ time, qrs }) => (qrs ? [qrs.end - time] : []))) + CLEAR;
  const to = Math.min(OVER.after, OVER.part * median(differences(times)));
  if (beats.length < ENOUGH || !(to - from >= SHORTEST)) return Number.NaN;
  const starts = times.map((time) => time + from);
  const heights = quiet.map((lead) => {
    const rows = wholeExcerpts(lead, starts, valuesBetween(from, to, P_RATE), P_RATE);
    return rows.length < ENOUGH ? 0 : sureHeight(levelled(rows));
  });
  return Math.max(0, ...heights);
}

/** The farthest that the average goes from its line, less what chance does there. */
function sureHeight(rows: readonly Float64Array[]): number {
  const mean = average(rows);
  let at = 0;
  for (let i = 1; i < mean.length; i += 1) if (Math.abs(mean[i]!) > Math.abs(mean[at]!)) at = i;
  const square = rows.reduce((sum, row) => sum + (row[at]! - mean[at]!) ** 2, 0);
  const error = Math.sqrt(square / (rows.length - 1) / rows.length);
  return Math.max(0, Math.abs(mean[at]!) - MARGIN * error);
}

/**
 * Share of beats that a T wave follows, as high as asked and all one way: a ventricle that was excited recovers, an
 * atrium hardly shows it, and a spike of a pacemaker or another device does not. Common practice.
 * @param least height of the T waves that count, mV
 */
export function shareRecovering(beats: readonly MarkedBeat[], least: number): number {
  return Math.max(
    share(beats, ({ t }) => t !== null && t.height >= least),
    share(beats, ({ t }) => t !== null && t.height <= -least),
  );
}
