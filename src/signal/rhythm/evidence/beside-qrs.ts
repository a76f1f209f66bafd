import { average, valuesBetween, wholeExcerpts } from '../../filter/excerpt.js';
import { correlation, median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { aheadOf, HALF, hasP, PLAY, usualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz. */
const RATE = 500;
/** A QRS and a P beside it lie within this of R, s. */
const REACH = 0.14;
/** A QRS is over where nothing is so many times as steep as the P of the lead. */
const STEEPER = 1.5;
/** Of the shape of the P waves that are marked, at least. */
const ALIKE = 0.85;
/** A lead tells where its P is at least this share of the tallest. */
const TOLD = 0.5;
/** Fewer beats make no average. */
const ENOUGH = 6;
/** Standard errors taken off what was seen. */
const MARGIN = 2;

/**
 * How much of a P stands halfway between those of neighbouring beats where that lies so near to a QRS that the two are
 * marked as one: 1 for a whole P, at the least (two standard errors), in each lead that shows P well. A wave of the shape of
 * a P is asked for there, parted from QRS by a dip; what leans on the QRS (a slur or notch of its end, a J wave) is none.
 * NaN where no such wave stands in the average.
 */
export function shownBesideQrs(beats: readonly MarkedBeat[], leads: readonly Channel[]): number {
  const led = beats.filter(hasP);
  if (led.length < ENOUGH) return Number.NaN;
  const ahead = median(led.map(aheadOf));
  const cycle = median(beats.slice(1).map(({ time }, i) => time - beats[i]!.time));
  // Before R where this is less than 0.
  const place = cycle / 2 - ahead;
  if (!(Math.abs(place) + HALF + PLAY <= REACH)) return Number.NaN;
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead, RATE);
    return usual ? [{ lead, p: usual.whole, height: heightOf(usual.whole) }] : [];
  });
  const tallest = Math.max(0, ...views.map(({ height }) => height));
  const shares = views
    .filter(({ height }) => height >= TOLD * tallest)
    .map(({ lead, p }) => shareBeside(lead, p, beats, place));
  return shares.length > 0 ? Math.min(...shares) : Number.NaN;
}

/** Of a P on its base line, mV. */
const heightOf = (p: Float64Array): number => p.reduce((most, x) => Math.max(most, Math.abs(x)), 0);

/** In one lead. */
function shareBeside(
  lead: Channel,
  p: Float64Array,
  beats: readonly MarkedBeat[],
  place: number,
): number {
  const way = Math.sign(p[(p.length - 1) / 2]!);
  const height = way * p[(p.length - 1) / 2]!;
  const rows = wholeExcerpts(
    lead,
    beats.map(({ time }) => time - REACH),
    valuesBetween(-REACH, REACH, RATE),
    RATE,
  );
  if (rows.length < ENOUGH || !(height > 0)) return Number.NaN;
  const mean = average(rows).map((x) => way * x);
  const centre = Math.round(REACH * RATE);
  const side = place < 0 ? -1 : 1;
  const edge = endOfSteep(mean, centre, side, STEEPER * steepest(p));
  const at = centre + Math.round(place * RATE);
  const play = Math.round(PLAY * RATE);
  const tip = tipNear(mean, at, play, edge, side);
  if (tip < 0) return Number.NaN;
  const half = Math.round(HALF * RATE);
  const inner = lowest(mean, edge, tip);
  const outer = lowest(mean, tip, tip + side * half);
  const share = Math.min(mean[tip]! - mean[inner]!, mean[tip]! - mean[outer]!) / height;
  if (!isOfShape(mean, tip, inner, outer, p, way)) return Number.NaN;
  // What each beat shows by itself tells how sure that is.
  const each = rows.map((row) => (way * (row[tip]! - (row[inner]! + row[outer]!) / 2)) / height);
  return share - MARGIN * standardError(each);
}

/** Where, going out from R, nothing is as steep any more: a place in the row. */
function endOfSteep(mean: Float64Array, centre: number, side: number, limit: number): number {
  let last = centre;
  const most = centre - 2;
  for (let away = 0; away < most; away += 1) {
    const i = centre + side * away;
    if (Math.abs(slopeAt(mean, i)) > limit) last = i;
  }
  return last + side;
}

/** mV a step. */
const slopeAt = (row: Float64Array, i: number): number =>
  ((row[i + 1] ?? 0) - (row[i - 1] ?? 0)) / 2;

function steepest(p: Float64Array): number {
  let most = 0;
  for (let i = 1; i + 1 < p.length; i += 1) most = Math.max(most, Math.abs(slopeAt(p, i)));
  return most;
}

/** The highest place within `play` of `at` and beyond `edge`, where the row falls off to both sides; -1 where there is none. */
function tipNear(mean: Float64Array, at: number, play: number, edge: number, side: number): number {
  let best = -1;
  for (let i = Math.max(1, at - play); i <= Math.min(mean.length - 2, at + play); i += 1) {
    if (side * (i - edge) <= 1) continue;
    if (mean[i]! >= mean[i - 1]! && mean[i]! >= mean[i + 1]! && !(mean[i]! <= mean[best]!))
      best = i;
  }
  return best;
}

/** The place of the lowest value from one place to another, in either direction. */
function lowest(mean: Float64Array, from: number, to: number): number {
  let best = from;
  for (
    let i = Math.max(0, Math.min(from, to));
    i <= Math.min(mean.length - 1, Math.max(from, to));
    i += 1
  ) {
    if (mean[i]! < mean[best]!) best = i;
  }
  return best;
}

/** Whether what stands between two places is of the shape of a P with its peak at `tip`. */
function isOfShape(
  mean: Float64Array,
  tip: number,
  one: number,
  other: number,
  p: Float64Array,
  way: number,
): boolean {
  const from = Math.min(one, other);
  const to = Math.max(one, other);
  const middle = (p.length - 1) / 2;
  const is = mean.slice(from, to + 1);
  const like = is.map((_, i) => way * (p[middle + from + i - tip] ?? 0));
  return correlation(is, like) >= ALIKE;
}

function standardError(values: readonly number[]): number {
  const middle = values.reduce((sum, x) => sum + x, 0) / values.length;
  const squares = values.reduce((sum, x) => sum + (x - middle) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1) / values.length);
}
