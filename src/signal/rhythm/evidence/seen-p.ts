import { countBefore } from '../../filter/ascending.js';
import {
  average,
  excerpt,
  level,
  levelled,
  valuesBetween,
  wholeExcerpts,
} from '../../filter/excerpt.js';
import { correlation, mean, median } from '../../filter/spread.js';
import type { MarkedBeat, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_HALF, P_RATE } from './atrial.js';
import { hasP, type WithP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Lone P waves, sorted by what the trace shows. */
export interface SeenP {
  /** Look like the P waves before beats, or like each other where no beat has one. */
  readonly confirmed: readonly Wave[];
  /** Where the trace is calm enough for a P to be seen; the others lie in noise. */
  readonly calm: readonly Wave[];
}

/** Least correlation with the average P. Own choice: noise scatters around 0, to 0.5 at times. */
const ALIKE = 0.6;
/** Smaller or larger than the average by more than this factor is another wave. Own choice. */
const SIZE = 2.5;
/** Hiss over this share of the P's height, in root mean square, feigns P waves. Own choice. */
const HISS = 0.4;

/** P waves without a QRS that look like those that have one, and those that stand where the trace is calm. */
export function seenP(
  loneP: readonly Wave[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  quiet: readonly Channel[],
): SeenP {
  const own = beats.filter(hasP);
  const known = own.length >= LEAST ? own.map(({ p }) => p) : loneP;
  const room = own.length >= LEAST ? median(own.map(roomAfterP)) : Number.POSITIVE_INFINITY;
  // A QRS that follows soon would be smoothed into the P before it.
  const shown = room < P_HALF + SMOOTHED ? leads : quiet;
  const stretch = { before: P_HALF, after: Math.min(P_HALF, Math.max(0, room - CLEAR_OF_QRS)) };
  const templates = shown.map((lead) => averageP(lead, known, stretch));
  const heights = templates.map((row) => (row ? heightOf(row) : 0));
  const best = heights.indexOf(Math.max(...heights));
  const template = templates[best];
  if (!template) return { confirmed: [], calm: loneP };
  const size = power(template);
  const isAlike = (wave: Wave): boolean => {
    const row = around(shown[best]!, wave, stretch);
    const ratio = Math.sqrt(power(row) / size);
    return correlation(row, template) >= ALIKE && ratio < SIZE && ratio > 1 / SIZE;
  };
  const smooth = averageP(quiet[best]!, known, stretch);
  const height = Math.min(heights[best]!, smooth ? heightOf(smooth) : 0);
  const most =
    loneP.length === 0 ? 0 : Math.max(SWING * height, WANDER * usualSwing(quiet[best]!, beats));
  const calm = loneP.filter(
    (wave) =>
      hissAt(leads[best]!, quiet[best]!, wave) < HISS * height &&
      !(swingAt(quiet[best]!, wave.peak, beats) > most),
  );
  return { calm, confirmed: calm.filter(isAlike) };
}

/** The line a little before and after a place that lies clear of T and QRS, s from it. */
const BESIDE = { from: 0.06, to: 0.1 };
/** Times the height of P, and what the line does elsewhere: where it moves by more from the one to the other a jolt feigns P waves. */
const SWING = 1;
const WANDER = 4;

/** By how much the line rises or falls past a place, mV; NaN where T or a QRS would move it. */
function swingAt(quiet: Channel, at: number, beats: readonly MarkedBeat[]): number {
  const next = countBefore(beats, ({ time }) => time >= at);
  const before = beats[next - 1];
  const after = beats[next];
  const from = at - BESIDE.to;
  const to = at + BESIDE.to;
  if (before && from < endOfT(before)) return Number.NaN;
  if (after && to > beginOf(after)) return Number.NaN;
  const side = (start: number): number =>
    mean([...excerpt(quiet, start, start + BESIDE.to - BESIDE.from, P_RATE)]);
  return Math.abs(side(at + BESIDE.from) - side(from));
}

/** The middle one of what the line does between T and the next beat, mV; 0 where there is no room. */
function usualSwing(quiet: Channel, beats: readonly MarkedBeat[]): number {
  const swings = beats
    .slice(1)
    .map((beat, i) => swingAt(quiet, (endOfT(beats[i]!) + beginOf(beat)) / 2, beats))
    .filter((swing) => !Number.isNaN(swing));
  return swings.length > 0 ? median(swings) : 0;
}

const endOfT = ({ t, time }: MarkedBeat): number => t?.end ?? time + T_OVER;
const beginOf = ({ p, qrs, time }: MarkedBeat): number => p?.onset ?? qrs?.onset ?? time - QRS_HALF;

/** Where they are not marked T is over and QRS begins by then, s from R. */
const T_OVER = 0.25;
const QRS_HALF = 0.06;

/** Fewer waves make no average to compare with. */
const LEAST = 3;

/** By so much on either side the hum filter smooths a wave, s: half of 1/50 s and of 1/60 s. */
const SMOOTHED = 0.018;
/** Before the onset of QRS, which may be marked late, s. */
const CLEAR_OF_QRS = 0.012;

/** From the peak of the P to the QRS, s. */
const roomAfterP = ({ p, qrs, time }: WithP): number => (qrs?.onset ?? time - QRS_HALF) - p.peak;

/** What is looked at around the peak of a P, s. */
interface Stretch {
  readonly before: number;
  readonly after: number;
}

function averageP(
  lead: Channel,
  waves: readonly Wave[],
  { before, after }: Stretch,
): Float64Array | null {
  const starts = waves.map(({ peak }) => peak - before);
  const rows = wholeExcerpts(lead, starts, valuesBetween(-before, after, P_RATE), P_RATE);
  return rows.length >= LEAST ? average(levelled(rows)) : null;
}

function around(lead: Channel, { peak }: Wave, { before, after }: Stretch): Float64Array {
  return level(excerpt(lead, peak - before, peak + after, P_RATE));
}

/** What the hum filter takes out around a wave, mV (root mean square). */
function hissAt(lead: Channel, quiet: Channel, { peak }: Wave): number {
  const raw = excerpt(lead, peak - P_HALF, peak + P_HALF, P_RATE);
  const smooth = excerpt(quiet, peak - P_HALF, peak + P_HALF, P_RATE);
  return Math.sqrt(power(level(raw.map((value, i) => value - smooth[i]!))) / raw.length);
}

const heightOf = (row: Float64Array): number => Math.max(...row) - Math.min(...row);

function power(row: Float64Array): number {
  return row.reduce((sum, value) => sum + value * value, 0);
}
