import type { ShapeFamilies } from '../../beats/families.js';
import { average, valuesBetween, wholeExcerpts } from '../../filter/excerpt.js';
import { correlation, differences, leastOf, median, quantile, share } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { isSteep } from './steep-qrs.js';
import { aheadOf, HALF, hasP, usualP, type WithP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: sixteen points on a P. */
const RATE = 250;
/** Fewer P waves or beats tell nothing. */
const ENOUGH = 3;
/** So much like the P of the other beats, and so many times as high, is one of them. */
const ALIKE = 0.95;
const SIZE = { least: 0.67, most: 1.5 };
/** A beat counts from any point of a flat top; s. */
const OFF = 0.008;

/**
 * Places of beats that are P waves by their look: of the shape and size of those that lead to the other beats, and no P
 * before them. Waves of the same atria look alike, and no QRS looks like them. Where they were counted as beats, a block
 * that does not let them through would pass for early beats of a ventricle.
 */
export function pAsBeats(
  beats: readonly MarkedBeat[],
  shapes: ShapeFamilies,
  leads: readonly Channel[],
): number[] {
  const led = beats.filter(hasP);
  if (led.length < 2 * ENOUGH || led.length === beats.length) return [];
  const groups = shapes.families
    .map(({ members }) => members.filter((i) => !beats[i]!.p))
    .filter((members) => members.length >= ENOUGH);
  if (groups.length === 0) return [];
  const ahead = median(led.map(aheadOf));
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead, RATE);
    return usual ? [{ lead, p: usual.whole, height: heightOf(usual.whole) }] : [];
  });
  const clearest = views.sort((a, b) => b.height - a.height)[0];
  if (!clearest) return [];
  return groups
    .filter((members) =>
      isAlike(
        clearest.lead,
        members.map((i) => beats[i]!.time),
        clearest.p,
      ),
    )
    .flat()
    .sort((a, b) => a - b);
}

/** Off where a P is due by no more than this share of a cycle, and cycles off one another by no more than that. */
const DUE = { off: 0.07, cycle: 0.15 };
const PAIR = 2;
/** A P is lower than this share of the usual QRS, and no longer than this, s (0.05 in a large dog, common practice, and what noise adds). */
const LOWER = 0.75;
const LONGEST = 0.065;

/**
 * Places of beats that are P waves by their time: three and more in a row, or several pairs, low and not led by a P, each
 * where the next P was due after that of the beat before the row, and before that of the beat behind it. A rhythm of the ventricles would have
 * to keep the pace of the atria, ahead of them by a PR.
 */
export function beatsInStepWithP(beats: readonly MarkedBeat[], shapes: ShapeFamilies): number[] {
  const led = beats.filter(isLed);
  if (led.length < 2 * ENOUGH || beats.length - led.length < ENOUGH) return [];
  const isLow = lowerThanLed(beats, shapes);
  const rows: { readonly members: readonly number[]; readonly step: number }[] = [];
  for (let first = 1; first < beats.length; first += 1) {
    let end = first;
    while (end < beats.length && !isLed(beats[end]!) && isLow(end)) end += 1;
    const last = beats[first - 1]!;
    if (end - first >= PAIR && isLed(last)) {
      const row = beats.slice(first, end).map(({ time }) => time as number);
      const behind = [...row, ...peakOfP(beats[end])];
      // The first P behind a beat may hide in its T.
      const onT = (last.p.peak + row[0]!) / 2;
      const step = evenStep([last.p.peak, ...behind]) ?? evenStep([last.p.peak, onT, ...behind]);
      if (step !== null) rows.push({ members: row.map((_, k) => first + k), step });
    }
    first = Math.max(first, end);
  }
  // Where most P waves were counted as beats, the others stand farther apart than a cycle.
  const near = quantile(differences(led.map(({ p }) => p.peak)), 0.25);
  const cycle = rows.length > 1 ? median(rows.map(({ step }) => step)) : near;
  const due = rows.filter(({ step }) => Math.abs(step / cycle - 1) <= DUE.cycle);
  // Two may come in step by chance, once.
  const areSure = due.length > 1 || due.some(({ members }) => members.length >= ENOUGH);
  return areSure ? due.flatMap(({ members }) => members) : [];
}

/** Of the beats of a shape that is no QRS so few have a T at most, and of the others so many at least. */
const WITH_T = { few: 0.25, most: 0.75 };

/**
 * Places of beats that are P waves by what they lack: of one shape, gentler than a QRS is where that of the others is one,
 * lower, and not followed by a T, as nearly all of the others are. Ventricles that were stirred have a T.
 */
export function beatsWithoutQrs(beats: readonly MarkedBeat[], shapes: ShapeFamilies): number[] {
  const hasT = (i: number): boolean => beats[i]!.t !== null;
  const steep = shapes.families.filter(isSteep);
  const ofQrs = steep.flatMap(({ members }) => members);
  if (ofQrs.length < ENOUGH || share(ofQrs, hasT) < WITH_T.most) return [];
  const lowest = leastOf(steep.map(({ height }) => height));
  return shapes.families
    .filter(
      (family) =>
        !isSteep(family) &&
        family.height < LOWER * lowest &&
        family.members.length >= ENOUGH &&
        share(family.members, hasT) <= WITH_T.few,
    )
    .flatMap(({ members }) => members);
}

/** If T were lost as often in all beats, none would be found behind the early ones so seldom. */
const BY_CHANCE = 1e-3;

/**
 * Places of early beats that are P waves by what they lack: low, and none of them followed by a T, as others are. Noise
 * may bend P and QRS into one shape, and a P that is not conducted then looks like an early beat.
 */
export function earlyWithoutT(beats: readonly MarkedBeat[]): number[] {
  const [early, others] = [true, false].map((isOne) =>
    beats.flatMap((beat, i) => (isEarly(beat) === isOne ? [i] : [])),
  ) as [number[], number[]];
  const hasT = (i: number): boolean => beats[i]!.t !== null;
  const height = (i: number): number => Math.abs(beats[i]!.qrs?.height ?? Number.NaN);
  const areP =
    early.length >= ENOUGH &&
    !early.some(hasT) &&
    (1 - share(others, hasT)) ** early.length <= BY_CHANCE &&
    median(early.map(height)) < LOWER * median(others.map(height));
  return areP ? early : [];
}

const isEarly = ({ kind }: MarkedBeat): boolean => kind === 'supraventricular premature';
/** A P that is marked before what a ventricle seems to have begun is noise, or another P. */
const isLed = (beat: MarkedBeat): beat is WithP =>
  hasP(beat) &&
  beat.kind !== 'ventricular' &&
  beat.kind !== 'ventricular premature' &&
  beat.kind !== 'ventricular escape';

/** Whether a beat is as short as a P and lower than those with one, by itself or by its shape: on one lead a QRS may be as low as P. */
function lowerThanLed(
  beats: readonly MarkedBeat[],
  { families, of }: ShapeFamilies,
): (i: number) => boolean {
  const own = (i: number): number => Math.abs(beats[i]!.qrs?.height ?? Number.NaN);
  const shape = (i: number): number => families[of[i]!]?.height ?? Number.NaN;
  const led = beats.flatMap((beat, i) => (isLed(beat) ? [i] : []));
  const usual = { own: median(led.map(own)), shape: median(led.map(shape)) };
  const isLong = (i: number): boolean => {
    const { qrs } = beats[i]!;
    return qrs !== null && qrs.end - qrs.onset > LONGEST;
  };
  return (i) => !isLong(i) && (own(i) < LOWER * usual.own || shape(i) < LOWER * usual.shape);
}

const peakOfP = (beat: MarkedBeat | undefined): number[] =>
  beat && isLed(beat) ? [beat.p.peak] : [];

/** How far apart the times are, where they follow one another evenly; null elsewhere. */
function evenStep(times: readonly number[]): number | null {
  const step = (times.at(-1)! - times[0]!) / (times.length - 1);
  const isEven = times.every((time, k) => Math.abs(time - times[0]! - k * step) <= DUE.off * step);
  return isEven ? step : null;
}

function isAlike(lead: Channel, times: readonly number[], p: Float64Array): boolean {
  const steps = Math.round(OFF * RATE);
  const length = valuesBetween(-HALF, HALF, RATE);
  const starts = times.map((time) => time - HALF - steps / RATE);
  const rows = wholeExcerpts(lead, starts, length + 2 * steps, RATE);
  if (rows.length < ENOUGH) return false;
  const mean = average(rows);
  for (let from = 0; from <= 2 * steps; from += 1) {
    const seen = mean.subarray(from, from + length);
    if (correlation(seen, p) < ALIKE) continue;
    const size = heightOf(seen) / heightOf(p);
    if (size >= SIZE.least && size <= SIZE.most) return true;
  }
  return false;
}

/** Of the middle over the mean of both ends. */
const heightOf = (row: Float64Array): number =>
  Math.abs(row[(row.length - 1) / 2]! - (row[0]! + row.at(-1)!) / 2);
