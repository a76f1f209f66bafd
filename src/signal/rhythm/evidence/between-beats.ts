import { seconds } from '../../../units/brands.js';
import { excerptInto, valuesBetween } from '../../filter/excerpt.js';
import { mostOf, quantile, unevenness } from '../../filter/spread.js';
import type { MarkedBeat, Patient } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { type Cycle, type HiddenP, hiddenP, shownHalfway } from './hidden-p.js';

// Lengths of P and QT follow Table 2.4 of Small Animal Internal Medicine, 6th ed.; the constants built on them are choices of the method: not clinical numbers.

/** What the trace shows between beats, beyond the waves that were marked. */
export interface BetweenBeats {
  /** Share of a P that may stand unfollowed between the P waves of neighbouring beats (`hiddenP`). */
  readonly hiddenP: HiddenP;
  /** The same in the pauses alone; NaN where they are too few. */
  readonly hiddenPInPauses: HiddenP;
  /** How many pauses that was looked for in, and how unevenly the other intervals come (`unevenness`). */
  readonly pauses: number;
  readonly unevenBeside: number;
  /** Share of a P that stands halfway at the least (`shownHalfway`); worked out when it is asked for. */
  readonly shownHalfway: () => number;
  /** Tallest deflection in the long pauses, as a share of the usual QRS: a beat that was missed. */
  readonly tallestInPause: number;
  /** The same in the middle one of all intervals: each second beat was missed. */
  readonly usuallyBetween: number;
}

/** Intervals over this share of the short ones are pauses. Own choice, under the 2 of a missed beat. */
const LONG = 1.6;

/** An early beat of a ventricle that was missed leaves at least this of the short ones, where the node starts anew behind it. Own choice. */
const MISSED = 1.35;

/** @param quiet the leads without power-line hum */
export function betweenBeats(
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  quiet: readonly Channel[],
  patient: Patient,
): BetweenBeats {
  const pairs = pairsFromAbove(beats, isFromAbove);
  const short = quantile(pairs.map(gapOf), 0.25);
  // What follows a beat that a ventricle began unseen looks early, and the interval that holds it ends or begins with one.
  const withEarly = pairsFromAbove(beats, isFromAboveOrEarly);
  const shortest = quantile(withEarly.map(gapOf), 0.25);
  const long = longerThan(LONG * short, pairs);
  const alike = ofOneShape(beats);
  const likePairs = pairs.filter(({ before, beat }) => alike.has(before) && alike.has(beat));
  const pattern = [...alike];
  const hidden = (among: readonly Cycle[]): HiddenP => hiddenP(among, pattern, leads, patient);
  const cut = pairs.length >= FEW ? cutShort(beats, quantile(pairs.map(gapOf), 0.5)) : [];
  const usual = quiet.map((lead) => usualHeight(lead, beats));
  return {
    hiddenP: hidden([...likePairs, ...cut]),
    hiddenPInPauses: hidden(long),
    pauses: long.length,
    unevenBeside: unevenness(pairs.filter((pair) => gapOf(pair) <= LONG * short).map(gapOf)),
    shownHalfway: () => shownHalfway(likePairs, pattern, leads, patient),
    // In one long pause a single beat may have been missed; in all intervals each second one.
    tallestInPause: mostOf([
      0,
      ...deflections(longerThan(MISSED * shortest, withEarly), quiet, usual),
    ]),
    usuallyBetween: quantile([0, ...deflections(pairs, quiet, usual)], 0.5),
  };
}

function pairsFromAbove(
  beats: readonly MarkedBeat[],
  isOne: (beat: MarkedBeat) => boolean,
): Cycle[] {
  const pairs: Cycle[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    const before = beats[i - 1]!;
    const beat = beats[i]!;
    if (isOne(before) && isOne(beat)) pairs.push({ before, beat });
  }
  return pairs;
}

/**
 * The beats less those of the rarer shape where some are wide on time: their T is another, and their R comes later after
 * P, while atria that fire between the beats do so before and behind either.
 */
function ofOneShape(beats: readonly MarkedBeat[]): ReadonlySet<MarkedBeat> {
  const wide = beats.filter(isAberrant);
  return new Set(2 * wide.length > beats.length ? wide : beats.filter((beat) => !isAberrant(beat)));
}

const isAberrant = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

/** Fewer cycles do not tell how long the usual one is. Own choice. */
const FEW = 4;
/** A beat of the ventricles later than this share of the usual interval leaves to be seen what stands halfway. Own choice. */
const LATE_ENOUGH = 0.55;

/** Cycles that a ventricle ended before the sinus node did, as long as they would have been. */
function cutShort(beats: readonly MarkedBeat[], usual: number): Cycle[] {
  const cut: Cycle[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    const before = beats[i - 1]!;
    const beat = beats[i]!;
    if (!isFromAbove(before) || isFromAbove(beat)) continue;
    if (beat.time - before.time < LATE_ENOUGH * usual) continue;
    cut.push({ before, beat: { ...beat, time: seconds(before.time + usual) } });
  }
  return cut;
}

function longerThan(limit: number, pairs: readonly Cycle[]): Cycle[] {
  const long: Cycle[] = [];
  for (const pair of pairs) if (gapOf(pair) > limit) long.push(pair);
  return long;
}

const gapOf = ({ before, beat }: Cycle): number => beat.time - before.time;

const isFromAbove = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' ||
  kind === 'aberrant' ||
  kind === 'unclassified' ||
  kind === 'junctional escape';

const isFromAboveOrEarly = (beat: MarkedBeat): boolean =>
  isFromAbove(beat) || beat.kind === 'supraventricular premature';

/** Half of the surroundings that a QRS is held against, s, so that wander does not count. */
const AROUND = 0.05;

/** T is over by then in a dog and a cat (QT to 0.25 s) where its end is not marked, s after R. */
const T_OVER = 0.25;

/** Of a QRS, as `tallest` sees it, mV: the middle one of the beats. */
export function usualHeight(lead: Channel, beats: readonly MarkedBeat[]): number {
  const heights: number[] = [];
  for (const { time } of beats) {
    heights.push(tallest(lead, time - AROUND - 0.02, time + AROUND + 0.02));
  }
  return quantile(heights, 0.5);
}

/** For each pair the tallest deflection between T and P, as a share of the `usual` QRS of each lead. */
function deflections(
  pairs: readonly Cycle[],
  quiet: readonly Channel[],
  usual: readonly number[],
): number[] {
  const out: number[] = [];
  for (const pair of pairs) out.push(deflectionIn(pair, quiet, usual));
  return out;
}

function deflectionIn(
  { before, beat }: Cycle,
  quiet: readonly Channel[],
  usual: readonly number[],
): number {
  const from = (before.t?.end ?? before.time + T_OVER) + 0.02;
  const to = (beat.p?.onset ?? beat.time - 0.1) - 0.02;
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < quiet.length; i += 1) {
    most = Math.max(most, usual[i]! > 0 ? tallest(quiet[i]!, from, to) / usual[i]! : 0);
  }
  return most;
}

let laid = new Float64Array(256);

/** A row of so many values, which holds until the next is asked for: there are more beats than arrays of their own are cheap for. */
function rowFor(length: number): Float64Array {
  if (laid.length < length) laid = new Float64Array(2 * length);
  return laid.subarray(0, length);
}

/** A peak that is so many times as high over twice as long is a swing of the line. */
const SWING = 1.6;

/** The highest peak between two seconds over the values 0.05 s before and after it, mV, of those that are no part of a longer swing. */
export function tallest(lead: Channel, from: number, to: number): number {
  if (to - from < 2 * AROUND) return 0;
  const row = rowFor(valuesBetween(from, to, 300));
  excerptInto(lead, from, 300, row, 0, row.length);
  return highestPeak(row, Math.round(AROUND * 300));
}

function highestPeak(row: Float64Array, reach: number): number {
  let most = 0;
  for (let i = reach; i + reach < row.length; i += 1) {
    const height = peakAt(row, i, reach);
    if (height <= most) continue;
    const isInside = i >= 2 * reach && i + 2 * reach < row.length;
    if (isInside && peakAt(row, i, 2 * reach) > SWING * height) continue;
    most = height;
  }
  return most;
}

/** By how much a value is over both of those so many steps away, or under both; 0 for a slope. */
function peakAt(row: Float64Array, i: number, reach: number): number {
  const before = row[i]! - row[i - reach]!;
  const after = row[i]! - row[i + reach]!;
  return before * after > 0 ? Math.min(Math.abs(before), Math.abs(after)) : 0;
}
