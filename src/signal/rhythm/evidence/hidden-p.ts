import { hertz } from '../../../units/brands.js';
import { average, excerpt, isWhole, level } from '../../filter/excerpt.js';
import { leastOf, mean, median, mostOf } from '../../filter/spread.js';
import type { MarkedBeat, Patient } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { type ShareOfP, shareOfP, type UsualP } from './share-of-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: sixteen points on a P. */
const RATE = 250;
/** Half of the stretch that holds a P of a dog or cat (0.035 to 0.05 s) and its shoulders, s. */
const HALF = 0.028;
/** Atria need not wait exactly alike after a beat; s. */
const PLAY = 0.016;
/** Samples at either end of a P's stretch that it does not reach. */
const END = 3;
/** After the QRS, s: where less of a P shows, its peak does not. */
const CLEAR_OF_QRS = 0.012;
/** Where the end of QRS is not marked, s after R. */
const QRS_HALF = 0.03;
/** Fewer stretches tell nothing of their scatter. */
const ENOUGH = 4;
/** In either half of the beats that the usual P is taken from. */
const HALF_ENOUGH = 3;
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
 * QRS: halfway, or at thirds, between the P waves of neighbouring beats. 1 is a whole P, 0 none. It
 * is the upper end of what the trace allows (two standard errors), in the lead that tells most. NaN
 * where it cannot be seen: a QRS covers the place, or noise does; 0 where there is no P to compare with,
 * or where hardly two such beats follow each other.
 *
 * @param beats all of the stretch: their P waves are the pattern
 */
export function hiddenP(
  cycles: readonly Cycle[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  { species }: Patient,
): number {
  const led = beats.filter(({ p }) => p !== null);
  if (led.length < ENOUGH || cycles.length < ENOUGH) return 0;
  // Counted from R: a peak that was marked in noise is a peak of that noise too.
  const ahead = median(led.map(({ time, p }) => time - p!.peak));
  const qrsEnd = median(beats.map(({ time, qrs }) => (qrs?.end ?? time + QRS_HALF) - time));
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead);
    return usual ? [{ lead, usual }] : [];
  });
  const mostAt = (part: number): number => {
    const places = cycles.flatMap(({ before, beat }): Place[] => {
      const after = part * (beat.time - before.time) - ahead;
      return after > qrsEnd + CLEAR_OF_QRS ? [{ r: before.time, after }] : [];
    });
    if (places.length < ENOUGH) return Number.NaN;
    const nearest = leastOf(places.map(({ after }) => after));
    const reach = Math.min(HALF + PLAY, nearest - qrsEnd);
    return upperEnd(
      views.flatMap(({ lead, usual }) => [
        ...withT(lead, places, usual, reach, SMOOTH[species]),
        ...withoutT(lead, places, usual, reach, SMOOTH[species]),
      ]),
    );
  };
  const half = mostAt(1 / 2);
  if (Number.isNaN(half)) return half;
  // Where each third one is followed both others must show.
  const thirds = [1 / 3, 2 / 3].map(mostAt).filter((share) => !Number.isNaN(share));
  return Math.max(0, half, thirds.length > 0 ? Math.min(...thirds) : 0);
}

/** Of the views that are about as sure as the surest, the one that allows most. */
function upperEnd(found: readonly ShareOfP[]): number {
  const least = Math.min(...found.map(({ error }) => error));
  const sure = found.filter(({ error }) => error <= AS_SURE * least);
  return sure.length > 0
    ? Math.max(...sure.map(({ share, error }) => share + MARGIN * error))
    : Number.NaN;
}

function usualP(lead: Channel, led: readonly MarkedBeat[], ahead: number): UsualP | null {
  const rows = readThroughout(
    led.map(({ time }) => excerpt(lead, time - ahead - HALF, time - ahead + HALF, RATE)),
  );
  if (rows.length < 2 * HALF_ENOUGH) return null;
  const half = (odd: number): Float64Array => onLine(average(rows.filter((_, i) => i % 2 === odd)));
  return { whole: onLine(average(rows)), halves: [half(0), half(1)] };
}

/** Less the straight line between its ends: a P stands on the line, and is 0 beyond. */
function onLine(row: Float64Array): Float64Array {
  const last = row.length - 1;
  const first = mean([...row.subarray(0, END)]);
  const tilt = (mean([...row.subarray(-END)]) - first) / (row.length - END);
  return row.map((value, i) =>
    i < END - 1 || i > last - END + 1 ? 0 : value - first - tilt * (i - (END - 1) / 2),
  );
}

/** Where a P may stand: R of the beat before, and how long after it, s. */
interface Place {
  readonly r: number;
  readonly after: number;
}

/** The trace as it is. T stands alike in all cycles of equal length. */
function withT(
  lead: Channel,
  places: readonly Place[],
  usual: UsualP,
  reach: number,
  smooth: number,
): ShareOfP[] {
  const rows = readThroughout(places.map((place) => around(lead, place, reach)));
  return fitted(rows, usual, reach, smooth);
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
  const afters = places.map(({ after }) => after);
  const from = leastOf(afters) - reach;
  const to = mostOf(afters) + HALF + PLAY;
  if (to - from < reach + HALF + PLAY + MOVES) return [];
  const follows = readThroughout(
    places.map(({ r }) => excerpt(lead, r + from, r + to + 1 / RATE, RATE)),
  );
  if (follows.length < ENOUGH) return [];
  const mean: Channel = { ...lead, samplingRate: hertz(RATE), samples: average(follows) };
  const rows = places.map((place) => {
    const row = around(lead, place, reach);
    const usually = around(mean, { r: -from, after: place.after }, reach);
    return row.map((value, i) => value - usually[i]!);
  });
  const lags = lagsOf(afters);
  const left = (p: Float64Array): Float64Array => leftOf(p, lags);
  const [one, two] = usual.halves;
  return fitted(
    readThroughout(rows),
    { whole: left(usual.whole), halves: [left(one), left(two)] },
    reach,
    smooth,
  );
}

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
  return Float64Array.from({ length: 2 * side + 1 }, (_, i) => {
    const at = i - side + middle;
    let taken = 0;
    for (const [lag, share] of lags) taken += share * (p[at + lag] ?? 0);
    return (p[at] ?? 0) - taken;
  });
}

function around(lead: Channel, { r, after }: Place, reach: number): Float64Array {
  return excerpt(lead, r + after - reach, r + after + HALF + PLAY, RATE);
}

function fitted(
  rows: readonly Float64Array[],
  usual: UsualP,
  reach: number,
  smooth: number,
): ShareOfP[] {
  if (rows.length < ENOUGH) return [];
  const peak = Math.round(reach * RATE);
  const play = Math.round(PLAY * RATE);
  const found = shareOfP(
    rows.map(level),
    usual,
    [Math.max(0, peak - play), peak + play],
    smooth * RATE,
  );
  return found ? [found] : [];
}

const readThroughout = (rows: readonly Float64Array[]): Float64Array[] =>
  rows.filter((row) => isWhole(row));
