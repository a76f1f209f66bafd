import { medianOfFinite, quantileOfFinite } from '../filter/order-statistics.js';
import type { Blemish } from './span.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Each part this long is judged on its own; in s. */
const judged = 0.25;
/** Fewer parts in a row are a sharp wave or a tap on the electrode. */
const fewest = 2;
/** Parts nearer than this belong to one burst; in s. */
const joinedWithin = 0.6;
/** How far a burst stands out of the usual hiss of the lead, and out of what a recorder adds, mV. */
export const LOUD = { usual: 5, recorder: 0.02 };
/**
 * Sign changes of the second difference, a step and a second: a wave of the heart has a tenth a step, white noise 0.73.
 * What a recorder's filter leaves of noise goes up and down 25 times a second and more, and the ventricles, even where
 * they fibrillate, half as often.
 */
const rough = { aStep: 0.25, aSecond: 50 };

/**
 * Stretches in which a lead hisses far more than it usually does, from one moment to the next, as
 * under electrosurgery: beats may still stand out, but P, T and the form of QRS are not to be relied
 * on. Taken from second differences between the beats. `samples` in mV, `rate` in Hz.
 */
export function bursts(samples: Float64Array, rate: number): Blemish[] {
  const size = Math.round(judged * rate);
  // Most leads have no part that hisses more than any recorder does: then nothing need be ranked.
  if (!isAnyLoud(samples, size)) return [];
  const parts: Hiss[] = [];
  const bends = new Float64Array(size);
  const least = Math.min(rough.aStep, rough.aSecond / rate);
  for (let from = 0; from + size <= samples.length; from += size) {
    parts.push(hissOf(samples, from, from + size, bends, least));
  }
  const known = parts.map(({ usually }) => usually).filter((hiss) => !Number.isNaN(hiss));
  // More than half of the strip may be burst: the quieter quarter is the usual.
  const loud = Math.max(LOUD.recorder, LOUD.usual * quantileOfFinite(known, 0.25));
  return joined(parts, loud, size, rate);
}

/** Of a part: the root mean square that white noise would have, mV. */
interface Hiss {
  /** As its middle bend tells it. */
  readonly usually: number;
  /** As the gentlest quarter of its bends does: a wide QRS and its T may take up half of a part, noise takes up all of it. */
  readonly throughout: number;
  /** Whether it goes up and down as noise does. */
  readonly isRough: boolean;
}

/** Whether any part of a lead may be a burst, the usual hiss of the lead left aside. */
function isAnyLoud(samples: Float64Array, size: number): boolean {
  for (let from = 0; from + size <= samples.length; from += size) {
    if (mayBeLoud(samples, from, from + size)) return true;
  }
  return false;
}

/** Whether half of the bends of a part lie over what a recorder adds: its middle bend cannot else. */
function mayBeLoud(samples: Float64Array, from: number, to: number): boolean {
  const end = Math.min(to, samples.length - 1);
  const least = LOUD.recorder * MIDDLE_BEND;
  const start = Math.max(1, from);
  const enough = (end - start + 1) / 2;
  let gentle = 0;
  let sharp = 0;
  for (let i = start; i < end; i += 1) {
    const bend = samples[i + 1]! - 2 * samples[i]! + samples[i - 1]!;
    if (bend < least && bend > -least) gentle += 1;
    else if (!Number.isNaN(bend)) sharp += 1;
    // However sharp the others are.
    if (gentle > enough) return false;
  }
  return gentle <= sharp + 1;
}

/** `bends` is laid out here. @param least share of the steps at which noise changes its sign */
function hissOf(
  samples: Float64Array,
  from: number,
  to: number,
  bends: Float64Array,
  least: number,
): Hiss {
  const end = Math.min(to, samples.length - 1);
  let count = 0;
  let changes = 0;
  let before = 0;
  for (let i = Math.max(1, from); i < end; i += 1) {
    const bend = samples[i + 1]! - 2 * samples[i]! + samples[i - 1]!;
    if (Number.isNaN(bend)) continue;
    bends[count++] = Math.abs(bend);
    if (bend * before < 0) changes += 1;
    before = bend;
  }
  if (count < (to - from) / 2) {
    return { usually: Number.NaN, throughout: Number.NaN, isRough: false };
  }
  const here = bends.subarray(0, count);
  return {
    usually: medianOfFinite(here) / MIDDLE_BEND,
    throughout: quantileOfFinite(here, 0.25) / GENTLE_BEND,
    isRough: changes > least * count,
  };
}

/**
 * Of the sizes of the second difference of white noise of root mean square 1, the middle one and that of the gentlest
 * quarter: 0.674 and 0.319 of a normal distribution, times √6.
 */
export const MIDDLE_BEND = 0.6745 * Math.sqrt(6);
const GENTLE_BEND = 0.3186 * Math.sqrt(6);

/** A burst hisses throughout at least this share of its parts: there the gentlest bends tell this share of what is loud. */
const filled = 1 / 2;
const gentle = 0.7;

function joined(parts: readonly Hiss[], loud: number, size: number, rate: number): Blemish[] {
  const bursts: { from: number; to: number; filled: number }[] = [];
  parts.forEach(({ usually, throughout, isRough }, k) => {
    if (!isRough || !(usually > loud)) return;
    const from = k * size;
    let burst = bursts.at(-1);
    if (!burst || from - burst.to >= joinedWithin * rate) {
      burst = { from, to: from, filled: 0 };
      bursts.push(burst);
    }
    burst.to = from + size;
    if (throughout > gentle * loud) burst.filled += size;
  });
  const isOne = (burst: (typeof bursts)[number]): boolean =>
    burst.to - burst.from >= fewest * size && burst.filled >= filled * (burst.to - burst.from);
  // It begins and ends within a part.
  return bursts.filter(isOne).map(({ from, to }) => ({
    from: Math.max(0, from - size / 2),
    to: to + size / 2,
    why: 'noise',
  }));
}
