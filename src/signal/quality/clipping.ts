import { medianOfEvery } from '../filter/order-statistics.js';
import { pieces } from '../filter/pieces.js';
import { runsOf } from '../filter/runs.js';
import type { Blemish } from './span.js';

/**
 * A signal that rests on its own highest or lowest value for longer than this stands at the end of
 * the recorder's range. The flattened tip of a clipped R is shorter, and still marks a beat; in s.
 */
const heldFor = 0.04;
/** The rail lies at least this share of the whole range away from the middle value. */
const awayFromMiddle = 0.25;
/** No recorder's range is narrower than this; a lead that moves less is idle, and holds its extreme values for long; in mV. */
const narrowest = 0.2;
/** Clipped stretches nearer than this belong together: nothing between them can be read; in s. */
const joinedWithin = 0.5;
/** The way into and out of the rail is no ECG either; in s. */
const margin = 0.1;

/** Stretches in which the signal stands at a rail. `samples` in mV, `rate` in Hz. */
export function clipping(samples: Float64Array, rate: number): Blemish[] {
  const { lowest, highest, atLowest, atHighest } = rangeOf(samples);
  if (highest - lowest < narrowest) return [];
  const middle = medianOfEvery(Math.ceil(samples.length / 100_000), samples, 0, samples.length);
  const isRail = (value: number) => Math.abs(value - middle) > awayFromMiddle * (highest - lowest);
  const least = Math.max(3, heldFor * rate);
  const held = [
    { rail: lowest, count: atLowest },
    { rail: highest, count: atHighest },
  ]
    // A value that few samples have is not held; only then is the lead gone through again.
    .filter(({ rail, count }) => count >= least && isRail(rail))
    .flatMap(({ rail }) => runsOf(rail, samples, least))
    .sort((a, b) => a.from - b.from);

  const joined: Blemish[] = [];
  for (const run of held) {
    const from = Math.max(0, run.from - Math.round(margin * rate));
    const to = Math.min(samples.length, run.to + Math.round(margin * rate));
    const before = joined.at(-1);
    if (before && from - before.to < joinedWithin * rate) {
      joined[joined.length - 1] = { ...before, to };
    } else {
      joined.push({ from, to, why: 'clipped' });
    }
  }
  return joined;
}

/** The extreme values, and how many samples have them. */
interface Extremes {
  readonly lowest: number;
  readonly highest: number;
  readonly atLowest: number;
  readonly atHighest: number;
}

/** Of no samples. Not a clinical number. */
const NOTHING: Extremes = {
  lowest: Number.POSITIVE_INFINITY,
  highest: Number.NEGATIVE_INFINITY,
  atLowest: 0,
  atHighest: 0,
};

function rangeOf(samples: Float64Array): Extremes {
  let range = NOTHING;
  for (const [from, to] of pieces(samples.length)) range = rangeWith(samples, from, to, range);
  return range;
}

function rangeWith(samples: Float64Array, from: number, to: number, before: Extremes): Extremes {
  let { lowest, highest, atLowest, atHighest } = before;
  for (let i = from; i < to; i++) {
    const x = samples[i]!;
    if (x > lowest && x < highest) continue;
    if (!Number.isFinite(x)) continue;
    if (x <= lowest) {
      atLowest = x < lowest ? 1 : atLowest + 1;
      lowest = x;
    }
    if (x >= highest) {
      atHighest = x > highest ? 1 : atHighest + 1;
      highest = x;
    }
  }
  return { lowest, highest, atLowest, atHighest };
}
