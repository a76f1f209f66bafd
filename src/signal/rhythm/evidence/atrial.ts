import { prOf } from '../../beats/leading-p.js';
import {
  average,
  levelled,
  scatterAbout,
  valuesBetween,
  wholeExcerpts,
} from '../../filter/excerpt.js';
import { correlation, differences, mean, median, quantile, share } from '../../filter/spread.js';
import type { MarkedBeat, Patient, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { EQUAL_PR } from '../interval-limits.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** What is known of the P waves that lead to beats. */
export interface AtrialEvidence {
  /** Beats that were asked, and those of them with a marked P. */
  readonly asked: number;
  readonly withP: number;
  /** Longest row of asked beats without a P, or with one at another distance. */
  readonly longestRowWithout: number;
  /** Usual PR, s; NaN without any P. */
  readonly pr: number;
  /** Share of the marked PR within the reading error of the usual one. */
  readonly equalPr: number;
  /**
   * Seen in the trace itself, whatever was marked: mean correlation of each beat's stretch before the
   * QRS with the average of all others there, and the share of beats over 0.3. 0 where it cannot be
   * computed.
   */
  readonly coherence: number;
  readonly coherentShare: number;
  /**
   * Height of the average there, and the noise that is left in it (standard deviation), mV, in the
   * lead where they differ most.
   */
  readonly height: number;
  readonly noise: number;
}

/** Hz: a multiple of both power-line frequencies' smoothing, enough for a P of 0.035 s. */
export const P_RATE = 300;
/** Half of the stretch that is looked at around P, s: P lasts up to 0.05 s, with its surroundings. */
export const P_HALF = 0.04;
const ALIKE = 0.3;

/**
 * @param asked the beats that a P should lead to
 * @param quiet the leads without power-line hum
 */
export function atrialEvidence(
  asked: readonly MarkedBeat[],
  quiet: readonly Channel[],
  patient: Patient,
): AtrialEvidence {
  const prs = asked.map(prOf);
  const known = prs.filter(isKnown);
  const pr = median(known);
  const near = EQUAL_PR[patient.species];
  const places = placesOfP(asked);
  const seen =
    places.length === 0
      ? { coherence: 0, coherentShare: 0, height: 0, noise: Number.POSITIVE_INFINITY }
      : coherenceOf(quiet, places);
  return {
    asked: asked.length,
    withP: known.length,
    longestRowWithout: longestRowWithout(prs, pr, 2 * near),
    pr,
    equalPr: shareWithin(known, pr, near),
    ...seen,
  };
}

const isKnown = (value: number | null): value is number => value !== null;

/** From the peak of P to R, s. */
const ahead = ({ time, p }: MarkedBeat): number | null => (p ? time - p.peak : null);

/** Where P usually stands before each R: farther where QRS is wide, whose R comes late. None without any P. */
function placesOfP(asked: readonly MarkedBeat[]): Place[] {
  const before = median(asked.map(ahead).filter(isKnown));
  const beforeWide = median(asked.filter(isAberrant).map(ahead).filter(isKnown));
  if (Number.isNaN(before)) return [];
  return asked.map((beat) =>
    placeBeforeQrs(beat, isAberrant(beat) && beforeWide > 0 ? beforeWide : before),
  );
}

const isAberrant = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

/** So long before each R, s; what follows is cut off where QRS begins. */
export function placesBeforeQrs(beats: readonly MarkedBeat[], before: number): Place[] {
  const places: Place[] = [];
  for (const beat of beats) places.push(placeBeforeQrs(beat, before));
  return places;
}

const placeBeforeQrs = ({ time, qrs }: MarkedBeat, before: number): Place => [
  time - before,
  (qrs?.onset ?? time - 0.03) + 0.005,
];

/** So long before the QRS that can be seen begins, s; what follows is cut off where the foot of a wide one may reach. */
export function placesBeforeOnset(beats: readonly MarkedBeat[], before: number): Place[] {
  const places: Place[] = [];
  for (const { qrs } of beats) if (qrs) places.push([qrs.onset - before, qrs.onset - FOOT]);
  return places;
}

/** Where a QRS is smoothed or begins gently, s. Own choice, not a clinical number. */
const FOOT = 0.015;

function shareWithin(values: readonly number[], middle: number, near: number): number {
  let within = 0;
  for (const value of values) if (Math.abs(value - middle) <= near) within += 1;
  return values.length === 0 ? 0 : within / values.length;
}

/** How alike the trace is around given instants (s), each cut off at its own second time. */
export function coherenceOf(
  quiet: readonly Channel[],
  places: readonly Place[],
): Pick<AtrialEvidence, 'coherence' | 'coherentShare' | 'height' | 'noise'> {
  const reach = Math.min(P_HALF, median(places.map(roomAt)));
  let best = { coherence: 0, coherentShare: 0, height: 0, noise: Number.POSITIVE_INFINITY };
  if (!(reach > 0.01)) return best;
  for (const lead of quiet) {
    const starts = places.map(startAt);
    const rows = levelled(
      wholeExcerpts(lead, starts, valuesBetween(-P_HALF, reach, P_RATE), P_RATE),
    );
    if (rows.length < 4) continue;
    const all = average(rows);
    const alike = likenessToOthers(rows, all);
    const residue = scatterAbout(all, rows);
    const coherence = mean(alike);
    if (coherence > best.coherence || best.noise === Number.POSITIVE_INFINITY) {
      best = {
        coherence: Math.max(0, coherence),
        coherentShare: share(alike, isAlike),
        height: Math.max(...all) - Math.min(...all),
        noise: Math.sqrt(residue / rows.length),
      };
    }
  }
  return best;
}

type Place = readonly [centre: number, until: number];

const roomAt = ([at, until]: Place): number => until - at;
const startAt = ([at]: Place): number => at - P_HALF;
const isAlike = (value: number): boolean => value > ALIKE;

/** Correlation of each row with the average of all others. */
function likenessToOthers(rows: readonly Float64Array[], all: Float64Array): number[] {
  const others = new Float64Array(all.length);
  const alike: number[] = [];
  for (const row of rows) {
    leaveOut(row, all, rows.length, others);
    alike.push(correlation(row, others));
  }
  return alike;
}

/** The average of `count` rows without one of them. */
function leaveOut(row: Float64Array, all: Float64Array, count: number, out: Float64Array): void {
  for (let i = 0; i < out.length; i += 1) out[i] = (all[i]! * count - row[i]!) / (count - 1);
}

/** Beats in a row without a PR, or with one that is further than `near` from the usual one. */
function longestRowWithout(prs: readonly (number | null)[], usual: number, near: number): number {
  let longest = 0;
  let row = 0;
  for (const pr of prs) {
    row = pr === null || Math.abs(pr - usual) > near ? row + 1 : 0;
    longest = Math.max(longest, row);
  }
  return longest;
}

/** How P waves that no QRS follows, and those before beats, march. */
export interface AtrialClock {
  /** All P peaks, ascending, s. */
  readonly times: readonly number[];
  /** Beats/min of the atria, from the usual distance; NaN under 3 P waves. */
  readonly rate: number;
  /** The usual distance, s. */
  readonly cycle: number;
  /** Share of the distances that are one, two or three usual ones: a P in a QRS or T is not seen. */
  readonly regular: number;
}

/** A distance this far from a whole number of cycles is off; by chance three in ten are nearer. */
const OFF_BEAT = 0.15;

/** The usual distance of the P waves, and how evenly they keep it whether a QRS follows or not. */
export function atrialClock(beats: readonly MarkedBeat[], loneP: readonly Wave[]): AtrialClock {
  const times = [...beats.map(peakOfP).filter(isKnown), ...loneP.map(peakOf)];
  times.sort(ascending);
  const gaps = differences(times);
  // The usual distance is the middle one of the shorter: the longer may hold an unseen P.
  const short = quantile(gaps, 0.25);
  const usual = median(between(gaps, 0.7 * short, 1.4 * short));
  return {
    times,
    cycle: usual,
    rate: gaps.length >= 2 ? 60 / usual : Number.NaN,
    regular: shareOnBeat(gaps, usual),
  };
}

const peakOfP = ({ p }: MarkedBeat): number | null => (p ? p.peak : null);
const peakOf = ({ peak }: Wave): number => peak;
const ascending = (a: number, b: number): number => a - b;

/** The values over `low` and under `high`. */
function between(values: readonly number[], low: number, high: number): number[] {
  const out: number[] = [];
  for (const value of values) if (value > low && value < high) out.push(value);
  return out;
}

function shareOnBeat(gaps: readonly number[], usual: number): number {
  let onBeat = 0;
  for (const gap of gaps) if (isOnBeat(gap / usual)) onBeat += 1;
  return gaps.length === 0 ? 0 : onBeat / gaps.length;
}

function isOnBeat(cycles: number): boolean {
  const whole = Math.round(cycles);
  return whole >= 1 && whole <= 3 && Math.abs(cycles - whole) < OFF_BEAT;
}
