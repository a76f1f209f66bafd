import { countBefore } from '../../filter/ascending.js';
import {
  average,
  excerpt,
  level,
  levelled,
  valuesBetween,
  wholeExcerpts,
} from '../../filter/excerpt.js';
import { correlation, mean } from '../../filter/spread.js';
import type { MarkedBeat, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_HALF, P_RATE } from './atrial.js';

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
  const own = beats.map(waveOf).filter(isThere);
  const known = own.length >= LEAST ? own : loneP;
  const templates = quiet.map((lead) => averageP(lead, known));
  const heights = templates.map((row) => (row ? Math.max(...row) - Math.min(...row) : 0));
  const best = heights.indexOf(Math.max(...heights));
  const template = templates[best];
  if (!template) return { confirmed: [], calm: loneP };
  const size = power(template);
  const isAlike = (wave: Wave): boolean => {
    const row = around(quiet[best]!, wave);
    const ratio = Math.sqrt(power(row) / size);
    return correlation(row, template) >= ALIKE && ratio < SIZE && ratio > 1 / SIZE;
  };
  const calm = loneP.filter(
    (wave) =>
      hissAt(leads[best]!, quiet[best]!, wave) < HISS * heights[best]! &&
      !swings(quiet[best]!, wave, beats, SWING * heights[best]!),
  );
  return { calm, confirmed: calm.filter(isAlike) };
}

/** The line a little before and after a wave that stands clear of T and QRS, s from its peak. */
const BESIDE = { from: 0.06, to: 0.1 };
/** Times the height of P: what moves the line by more from the one to the other feigns P waves. */
const SWING = 1;

/** Whether the line goes up or down by more than `most` past a wave where neither T nor QRS would move it. */
function swings(
  quiet: Channel,
  { peak }: Wave,
  beats: readonly MarkedBeat[],
  most: number,
): boolean {
  const next = countBefore(beats, ({ time }) => time >= peak);
  const before = beats[next - 1];
  const after = beats[next];
  const from = peak - BESIDE.to;
  const to = peak + BESIDE.to;
  if (before && from < (before.t?.end ?? before.time + T_OVER)) return false;
  if (after && to > (after.p?.onset ?? after.qrs?.onset ?? after.time - QRS_HALF)) return false;
  const side = (start: number): number =>
    mean([...excerpt(quiet, start, start + BESIDE.to - BESIDE.from, P_RATE)]);
  return Math.abs(side(peak + BESIDE.from) - side(from)) > most;
}

/** Where they are not marked T is over and QRS begins by then, s from R. */
const T_OVER = 0.25;
const QRS_HALF = 0.06;

const waveOf = ({ p }: MarkedBeat): Wave | null => p;
const isThere = (wave: Wave | null): wave is Wave => wave !== null;

/** Fewer waves make no average to compare with. */
const LEAST = 3;

function averageP(lead: Channel, waves: readonly Wave[]): Float64Array | null {
  const rows = wholeExcerpts(lead, waves.map(startOf), WIDTH, P_RATE);
  return rows.length >= LEAST ? average(levelled(rows)) : null;
}

/** Values of the stretch around a P. */
const WIDTH = valuesBetween(-P_HALF, P_HALF, P_RATE);
const startOf = ({ peak }: Wave): number => peak - P_HALF;

function around(lead: Channel, { peak }: Wave): Float64Array {
  return level(excerpt(lead, peak - P_HALF, peak + P_HALF, P_RATE));
}

/** What the hum filter takes out around a wave, mV (root mean square). */
function hissAt(lead: Channel, quiet: Channel, { peak }: Wave): number {
  const raw = excerpt(lead, peak - P_HALF, peak + P_HALF, P_RATE);
  const smooth = excerpt(quiet, peak - P_HALF, peak + P_HALF, P_RATE);
  return Math.sqrt(power(level(raw.map((value, i) => value - smooth[i]!))) / raw.length);
}

function power(row: Float64Array): number {
  return row.reduce((sum, value) => sum + value * value, 0);
}
