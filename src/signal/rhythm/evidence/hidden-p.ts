import { hertz } from '../../../units/brands.js';
import {
  averageExcerpt,
  excerptInto,
  isWhole,
  levelled,
  valuesBetween,
  wholeExcerpts,
} from '../../filter/excerpt.js';
import { leastOf, median, mostOf } from '../../filter/spread.js';
import type { MarkedBeat, Patient } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { type ShareOfP, shareOfP } from './share-of-p.js';
import { aheadOf, HALF, hasP, lengthAfterR, PLAY, type UsualP, usualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: sixteen points on a P. */
const RATE = 250;
/** After the QRS, s: where less of a P shows, its peak does not. */
const CLEAR_OF_QRS = 0.012;
/** From the summit of T, s: what is nearer may be a remnant of it. */
const CLEAR_OF_T: Record<Patient['species'], number> = {
  dog: 0.045,
  cat: 0.035,
  rabbit: 0.03,
  ferret: 0.03,
};
/** Fewer stretches tell nothing of their scatter. */
const ENOUGH = 4;
/** Standard errors added to what was seen. */
const MARGIN = 2;
/** Times the least standard error: about as sure. */
const AS_SURE = 1.5;
/** A T changes over this time, s (the scale of its covariance); a P over less by half. */
const SMOOTH: Record<Patient['species'], number> = {
  dog: 0.022,
  cat: 0.018,
  rabbit: 0.014,
  ferret: 0.014,
};

/** Neighbouring beats that no ventricle started. */
export interface Cycle {
  readonly before: MarkedBeat;
  readonly beat: MarkedBeat;
}

/**
 * How much of a P wave may stand where one would if only each second or third were followed by a
 * QRS: halfway, or at both thirds, between the P waves of neighbouring beats. 1 is a whole P, 0 none. It
 * is the upper end of what the trace allows (two standard errors). NaN where it cannot be seen: a QRS
 * covers the place, or noise does.
 */
export interface HiddenP {
  readonly half: number;
  readonly thirds: number;
}

/** The more of the two; NaN where a P halfway cannot be seen. */
export const mostHidden = ({ half, thirds }: HiddenP): number =>
  Number.isNaN(half) || Number.isNaN(thirds) ? half : Math.max(half, thirds);

/**
 * What the trace itself shows at these places; 0 where there is no P to compare with, or where hardly two such
 * beats follow each other.
 *
 * @param beats all of the stretch: their P waves are the pattern
 */
export function hiddenP(
  cycles: readonly Cycle[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  { species }: Patient,
): HiddenP {
  const views = cycles.length < ENOUGH ? null : viewsOf(beats, leads, species);
  if (!views) return { half: 0, thirds: 0 };
  const mostAt = (part: number): number => upperEnd(sharesAt(cycles, part, views));
  const half = Math.max(0, mostAt(1 / 2));
  return { half, thirds: Number.isNaN(half) ? half : bothThirds(mostAt) };
}

/**
 * How much of a P stands halfway between those of neighbouring beats at the least (two standard errors), where
 * neither QRS nor the summit of T is near, which look like one. NaN where they are, or where it cannot be seen.
 */
export function shownHalfway(
  cycles: readonly Cycle[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  { species }: Patient,
): number {
  const views = viewsOf(beats, leads, species);
  if (!views || cycles.length < ENOUGH) return Number.NaN;
  const after = median(
    cycles.map(({ before, beat }) => (beat.time - before.time) / 2 - views.ahead),
  );
  const summit = median(beats.flatMap(({ time, t }) => (t ? [t.peak - time] : [])));
  if (!(Math.abs(after - summit) >= CLEAR_OF_T[species]) || after < views.qrsEnd + PLAY) {
    return Number.NaN;
  }
  return lowerEnd(sharesAt(cycles, 1 / 2, views));
}

/** The pattern of P in each lead, and where it stands before the QRS. */
interface Views {
  readonly ahead: number;
  readonly qrsEnd: number;
  readonly smooth: number;
  readonly each: readonly { readonly lead: Channel; readonly usual: UsualP }[];
}

function viewsOf(
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  species: Patient['species'],
): Views | null {
  const led = beats.filter(hasP);
  if (led.length < ENOUGH) return null;
  // Counted from R: a peak that was marked in noise is a peak of that noise too.
  const ahead = median(led.map(aheadOf));
  return {
    ahead,
    qrsEnd: median(beats.map(lengthAfterR)),
    smooth: SMOOTH[species],
    each: leads.flatMap((lead) => {
      const usual = usualP(lead, led, ahead, RATE);
      return usual ? [{ lead, usual }] : [];
    }),
  };
}

/** What each lead shows at a part of each cycle; empty where too few of them show the place. */
function sharesAt(
  cycles: readonly Cycle[],
  part: number,
  { ahead, qrsEnd, smooth, each }: Views,
): ShareOfP[] {
  const places = placesIn(cycles, part, ahead, qrsEnd + CLEAR_OF_QRS);
  if (places.length < ENOUGH) return [];
  const nearest = leastOf(places.map(afterOf));
  const reach = Math.min(HALF + PLAY, nearest - qrsEnd);
  return each.flatMap(({ lead, usual }) => [
    ...withT(lead, places, usual, reach, smooth),
    ...withoutT(lead, places, usual, reach, smooth),
  ]);
}

/** Where each third one is followed both others must show. */
export function bothThirds(mostAt: (part: number) => number): number {
  const thirds = [1 / 3, 2 / 3].map(mostAt).filter((share) => !Number.isNaN(share));
  return thirds.length > 0 ? Math.min(...thirds) : Number.NaN;
}

/** Of the views that are about as sure as the surest, the one that allows most. */
const upperEnd = (found: readonly ShareOfP[]): number =>
  found.length === 0
    ? Number.NaN
    : Math.max(...surest(found).map(({ share, error }) => share + MARGIN * error));

/** The one that asks for least. */
const lowerEnd = (found: readonly ShareOfP[]): number =>
  found.length === 0
    ? Number.NaN
    : Math.min(...surest(found).map(({ share, error }) => share - MARGIN * error));

function surest(found: readonly ShareOfP[]): readonly ShareOfP[] {
  const least = Math.min(...found.map(({ error }) => error));
  return found.filter(({ error }) => error <= AS_SURE * least);
}

/** Where a P may stand: R of the beat before, and how long after it, s. */
interface Place {
  readonly r: number;
  readonly after: number;
}

const afterOf = ({ after }: Place): number => after;

/** A part of each cycle on, less the time from P to R; those that lie after `least`. */
function placesIn(
  cycles: readonly Cycle[],
  part: number,
  ahead: number,
  least: number,
): readonly Place[] {
  const places: Place[] = [];
  for (const { before, beat } of cycles) {
    const after = part * (beat.time - before.time) - ahead;
    if (after > least) places.push({ r: before.time, after });
  }
  return places;
}

/** The trace as it is. T stands alike in all cycles of equal length. */
function withT(
  lead: Channel,
  places: readonly Place[],
  usual: UsualP,
  reach: number,
  smooth: number,
): ShareOfP[] {
  const starts: number[] = [];
  for (const { r, after } of places) starts.push(r + after - reach);
  return fitted(lead, wholeExcerpts(lead, starts, widthOf(reach), RATE), usual, reach, smooth);
}

/**
 * The trace less what usually follows R. Where the length of the cycles varies a P halfway between
 * others moves against T, and most of it is left while T is gone.
 */
function withoutT(
  lead: Channel,
  places: readonly Place[],
  usual: UsualP,
  reach: number,
  smooth: number,
): ShareOfP[] {
  const afters = places.map(afterOf);
  const from = leastOf(afters) - reach;
  const to = mostOf(afters) + HALF + PLAY;
  if (to - from < reach + HALF + PLAY + MOVES) return [];
  const starts: number[] = [];
  for (const { r } of places) starts.push(r + from);
  const follows = averageExcerpt(lead, starts, valuesBetween(from, to + 1 / RATE, RATE), RATE);
  if (follows.count < ENOUGH) return [];
  const usually: Channel = { ...lead, samplingRate: hertz(RATE), samples: follows.mean };
  const lags = lagsOf(afters);
  const left = (p: Float64Array): Float64Array => leftOf(p, lags);
  const [one, two] = usual.halves;
  return fitted(
    lead,
    less(lead, usually, places, from, reach),
    { whole: left(usual.whole), halves: [left(one), left(two)] },
    reach,
    smooth,
  );
}

/** The trace at each place that is seen whole, less what `usually` follows R, counted from `from` after it. */
function less(
  lead: Channel,
  usually: Channel,
  places: readonly Place[],
  from: number,
  reach: number,
): Float64Array[] {
  const width = widthOf(reach);
  const all = new Float64Array(places.length * width);
  const usual = new Float64Array(width);
  const rows: Float64Array[] = [];
  for (const { r, after } of places) {
    const row = all.subarray(rows.length * width, (rows.length + 1) * width);
    excerptInto(lead, r + after - reach, RATE, row, 0, width);
    excerptInto(usually, after - from - reach, RATE, usual, 0, width);
    takeOff(row, usual);
    if (isWhole(row)) rows.push(row);
  }
  return rows;
}

function takeOff(row: Float64Array, usual: Float64Array): void {
  for (let i = 0; i < row.length; i += 1) row[i]! -= usual[i]!;
}

/** Values of the stretch that is looked at around a place. */
const widthOf = (reach: number): number => valuesBetween(-reach, HALF + PLAY, RATE);

/** Nothing is left of a P that moves less than this against R, s. */
const MOVES = 0.02;

/** Shares of all pairs of places that lie so many steps apart. */
function lagsOf(afters: readonly number[]): ReadonlyMap<number, number> {
  const first = leastOf(afters);
  const counts = new Map<number, number>();
  for (const after of afters) {
    const step = Math.round((after - first) * RATE);
    counts.set(step, (counts.get(step) ?? 0) + 1 / afters.length);
  }
  const lags = new Map<number, number>();
  for (const [one, p] of counts) {
    for (const [two, q] of counts) lags.set(one - two, (lags.get(one - two) ?? 0) + p * q);
  }
  return lags;
}

/** What is left of a P at its place, on average, where the mean over all cycles is taken off. */
function leftOf(p: Float64Array, lags: ReadonlyMap<number, number>): Float64Array {
  const middle = (p.length - 1) / 2;
  const side = Math.round((HALF + 2 * PLAY) * RATE);
  const taken = new Float64Array(2 * side + 1);
  // Lag by lag: to walk along the map once for each place would cost far more than the sums.
  for (const [lag, share] of lags) addLagging(p, lag - side + middle, share, taken);
  return taken.map((sum, i) => (p[i - side + middle] ?? 0) - sum);
}

/** Adds a share of the P, moved so that its place `shift` lies on the first sum. */
function addLagging(p: Float64Array, shift: number, share: number, sums: Float64Array): void {
  const from = Math.max(0, -shift);
  const to = Math.min(sums.length, p.length - shift);
  for (let i = from; i < to; i += 1) sums[i]! += share * p[i + shift]!;
}

function fitted(
  { samplingRate }: Channel,
  rows: readonly Float64Array[],
  usual: UsualP,
  reach: number,
  smooth: number,
): ShareOfP[] {
  if (rows.length < ENOUGH) return [];
  const peak = Math.round(reach * RATE);
  const play = Math.round(PLAY * RATE);
  const found = shareOfP(
    levelled(rows),
    usual,
    [Math.max(0, peak - play), peak + play],
    smooth * RATE,
    RATE / samplingRate,
  );
  return found ? [found] : [];
}
