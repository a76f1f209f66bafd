import { excerpt } from '../../filter/excerpt.js';
import { quantileOfFinite } from '../../filter/order-statistics.js';
import { leastOf, mean } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_RATE } from './atrial.js';

/** What stands between beats where no P was marked. */
export interface BendsBetween {
  /** How far the sharpest bends stand over the usual ones. */
  readonly standsOut: number;
  /** Standard deviation of the noise there, mV, in the calmest lead: by the usual bend, which a jolt hardly moves. */
  readonly noise: number;
}

/**
 * How much the sharpest bends between T and the next QRS stand over the usual ones there, in the lead
 * where they do most: 3 for plain noise (Gaussian: the largest twentieth over the middle one), more
 * where P waves or bursts of noise pass that were not marked. Null where too little lies between beats.
 */
export function standsOutBetweenBeats(
  beats: readonly MarkedBeat[],
  quiet: readonly Channel[],
): BendsBetween | null {
  const gaps = beats.slice(1).flatMap((beat, i) => {
    const before = beats[i]!;
    const from = (before.t?.end ?? before.time + T_OVER) + CLEAR;
    const to = (beat.qrs?.onset ?? beat.time - QRS_HALF) - CLEAR;
    return to - from > 4 * BEND ? [{ from, to }] : [];
  });
  if (timeOf(gaps) < LEAST) return null;
  const still = gaps.filter((gap) => !quiet.some((lead) => isSwinging(lead, gap)));
  const looked = timeOf(still) >= Math.max(LEAST, STILL * timeOf(gaps)) ? still : gaps;
  const perLead = quiet.map((lead) => {
    const rows = looked.map(({ from, to }) => bendsOf(excerpt(lead, from, to, P_RATE)));
    const usual = Math.max(quantileOfFinite(rows.flat(), 0.5), FINEST * USUAL_BEND);
    const each = rows
      .filter((row) => row.length > 0)
      .map((row) => quantileOfFinite(row, 0.95) / usual);
    return { standsOut: quantileOfFinite(each, MOST), noise: usual / USUAL_BEND };
  });
  return {
    standsOut: Math.max(...perLead.map(({ standsOut }) => standsOut).filter(Number.isFinite), 0),
    noise: leastOf(perLead.map(({ noise }) => noise)),
  };
}

interface Gap {
  readonly from: number;
  readonly to: number;
}

const timeOf = (gaps: readonly Gap[]): number =>
  gaps.reduce((sum, { from, to }) => sum + to - from, 0);

/** Whether the line, less all that is as short as a P, moves by more than a P is high: the lead was jolted. */
function isSwinging(lead: Channel, { from, to }: Gap): boolean {
  const row = excerpt(lead, from, to, P_RATE);
  const width = Math.round(SLOW * P_RATE);
  let least = Number.POSITIVE_INFINITY;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i + width <= row.length; i += width) {
    const level = mean([...row.subarray(i, i + width)]);
    least = Math.min(least, level);
    most = Math.max(most, level);
  }
  return most - least > SWING;
}

// The constants of this file are choices of the method, not clinical numbers.

/** s, and mV. */
const SLOW = 0.12;
const SWING = 0.2;
/** Of the time between beats, so much must be still for the rest to be left out. */
const STILL = 0.3;

/** Where the end of T or the onset of QRS is not marked: T is over, QRS has not begun; s from R. */
const T_OVER = 0.25;
const QRS_HALF = 0.06;
/** Left out beside T and QRS, s. */
const CLEAR = 0.03;
/** A P has fallen to a fraction of its height this far from its peak, s. */
const BEND = 0.02;
/** Atria show between nearly all beats, a jolt of the leads between few: what so many of the gaps stay under. */
const MOST = 0.7;
/** The middle size of a bend of plain noise, in its standard deviations: 0.67 of that of a value less the mean of two others. */
const USUAL_BEND = 0.6745 * Math.sqrt(1.5);
/** Noise finer than this, mV, hides no P, and what stands out of it is too low to be one: the foot of a T, a filter, a step of the recorder. */
const FINEST = 0.002;
/** Time between beats that must be seen in all, s. */
const LEAST = 1;

function bendsOf(row: Float64Array): number[] {
  const by = Math.round(BEND * P_RATE);
  const out: number[] = [];
  for (let i = by; i + by < row.length; i += 1) {
    out.push(Math.abs(row[i]! - (row[i - by]! + row[i + by]!) / 2));
  }
  return out;
}
