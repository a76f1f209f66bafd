import { everyNth, median } from '../filter/order-statistics.js';
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
/** Clipped stretches nearer than this belong together: nothing between them can be read; in s. */
const joinedWithin = 0.5;
/** The way into and out of the rail is no ECG either; in s. */
const margin = 0.1;

/** Stretches in which the signal stands at a rail. `samples` in mV, `rate` in Hz. */
export function clipping(samples: Float64Array, rate: number): Blemish[] {
  const { lowest, highest } = rangeOf(samples);
  const middle = median(everyNth(samples, Math.ceil(samples.length / 100_000)));
  const isRail = (value: number) => Math.abs(value - middle) > awayFromMiddle * (highest - lowest);
  const held = [lowest, highest]
    .filter(isRail)
    .flatMap((rail) => runsOf(rail, samples, Math.max(3, heldFor * rate)))
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

function rangeOf(samples: Float64Array): { readonly lowest: number; readonly highest: number } {
  let range = { lowest: Number.POSITIVE_INFINITY, highest: Number.NEGATIVE_INFINITY };
  for (const [from, to] of pieces(samples.length)) range = rangeWith(samples, from, to, range);
  return range;
}

function rangeWith(
  samples: Float64Array,
  from: number,
  to: number,
  before: { readonly lowest: number; readonly highest: number },
) {
  let { lowest, highest } = before;
  for (let i = from; i < to; i++) {
    const x = samples[i]!;
    if (!Number.isFinite(x)) continue;
    if (x < lowest) lowest = x;
    if (x > highest) highest = x;
  }
  return { lowest, highest };
}
