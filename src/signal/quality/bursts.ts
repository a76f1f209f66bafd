import { medianOfFinite, quantileOfFinite } from '../filter/order-statistics.js';
import type { Blemish } from './span.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Each part this long is judged on its own; in s. */
const judged = 0.25;
/** Less is a sharp wave or a tap on the electrode; in s. */
const shortest = 0.5;
/** Parts nearer than this belong to one burst; in s. */
const joinedWithin = 0.6;
/** How far a burst stands out of the usual hiss of the lead, and out of what a recorder adds, mV. */
const over = { usual: 5, recorder: 0.02 };
/** Sign changes a step of the second difference: a wave of the heart has a tenth, white noise 0.73. */
const rough = 0.25;

/**
 * Stretches in which a lead hisses far more than it usually does, from one moment to the next, as
 * under electrosurgery: beats may still stand out, but P, T and the form of QRS are not to be relied
 * on. Taken from second differences between the beats. `samples` in mV, `rate` in Hz.
 */
export function bursts(samples: Float64Array, rate: number): Blemish[] {
  const size = Math.round(judged * rate);
  // Most leads have no part that hisses more than any recorder does: then nothing need be ranked.
  if (!isAnyLoud(samples, size)) return [];
  const parts: { readonly hiss: number; readonly rough: boolean }[] = [];
  const bends = new Float64Array(size);
  for (let from = 0; from + size <= samples.length; from += size) {
    parts.push(hissOf(samples, from, from + size, bends));
  }
  const known = parts.map(({ hiss }) => hiss).filter((hiss) => !Number.isNaN(hiss));
  // More than half of the strip may be burst: the quieter quarter is the usual.
  const least = Math.max(over.recorder, over.usual * quantileOfFinite(known, 0.25));
  const loud = parts.map((part) => part.rough && part.hiss > least);
  return joined(loud, size, rate);
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
  const least = over.recorder * MIDDLE_BEND;
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

/** Hiss of a part between its beats (root mean square that white noise would have), mV. `bends` is laid out here. */
function hissOf(samples: Float64Array, from: number, to: number, bends: Float64Array) {
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
  if (count < (to - from) / 2) return { hiss: Number.NaN, rough: false };
  return {
    hiss: medianOfFinite(bends.subarray(0, count)) / MIDDLE_BEND,
    rough: changes > rough * count,
  };
}

/** Middle size of the second difference of white noise of root mean square 1: 0.674 times √6. */
const MIDDLE_BEND = 0.6745 * Math.sqrt(6);

function joined(loud: readonly boolean[], size: number, rate: number): Blemish[] {
  const out: Blemish[] = [];
  loud.forEach((isLoud, k) => {
    if (!isLoud) return;
    const part = { from: k * size, to: (k + 1) * size, why: 'noise' as const };
    const before = out.at(-1);
    if (before && part.from - before.to < joinedWithin * rate) {
      out[out.length - 1] = { ...before, to: part.to };
    } else out.push(part);
  });
  // A burst begins and ends within a part.
  return out
    .filter(({ from, to }) => to - from >= shortest * rate)
    .map(({ from, to, why }) => ({ from: Math.max(0, from - size / 2), to: to + size / 2, why }));
}
