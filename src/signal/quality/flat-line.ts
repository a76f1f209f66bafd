import { pieces } from '../filter/pieces.js';
import type { Run } from '../filter/runs.js';
import type { Blemish } from './span.js';

/** Less than the noise of any electrode on skin; in mV, from peak to peak. */
const stillness = 0.002;
/** A lead that normally shows noise between beats is taken as off after this long; in s. */
const tooStill = 1;
/**
 * A lead whose rest between beats is flat by nature (a coarse converter, a smoothed or computed
 * signal) cannot tell a pause from a lost lead so soon; in s.
 */
const tooStillForQuietLead = 8;
/** Such a lead rests for so long, so often; both in s. */
const quiet = { restOf: 0.1, every: 4 };

/** Stretches in which the signal does not move at all. `samples` in mV, `rate` in Hz. */
export function flatLine(samples: Float64Array, rate: number): Blemish[] {
  const rests = restsOf(samples, Math.ceil(quiet.restOf * rate));
  const isQuiet = rests.length * quiet.every * rate >= samples.length;
  const limit = isQuiet ? tooStillForQuietLead : tooStill;
  return rests
    .filter((rest) => rest.to - rest.from >= limit * rate)
    .map((rest) => ({ ...rest, why: 'flat line' as const }));
}

/** Stretches of at least `least` samples that stay within `stillness` of each other. */
function restsOf(samples: Float64Array, least: number): Run[] {
  const rests: Run[] = [];
  if (!mayRest(samples, least >> 1)) return rests;
  const open: Open = {
    from: 0,
    low: Number.POSITIVE_INFINITY,
    high: Number.NEGATIVE_INFINITY,
  };
  for (const [from, to] of pieces(samples.length)) {
    findRests(samples, from, to, least, open, rests);
  }
  if (samples.length - open.from >= least) rests.push({ from: open.from, to: samples.length });
  return rests;
}

/** Whether a lead rests anywhere for `half` samples from one to the next multiple of them, as it does within a rest of twice that. */
function mayRest(samples: Float64Array, half: number): boolean {
  if (half < 1) return true;
  for (let from = 0; from + half < samples.length; from += half) {
    if (isStill(samples, from, from + half)) return true;
  }
  return false;
}

/** Whether all samples from place `from` to `to` (included) stay near the first. */
function isStill(samples: Float64Array, from: number, to: number): boolean {
  const first = samples[from]!;
  for (let i = to; i > from; i--) if (!(Math.abs(samples[i]! - first) <= stillness)) return false;
  return true;
}

/** The stretch under way. */
interface Open {
  from: number;
  low: number;
  high: number;
}

function findRests(
  samples: Float64Array,
  first: number,
  end: number,
  least: number,
  open: Open,
  rests: Run[],
): void {
  let { from, low, high } = open;
  for (let i = first; i < end; i++) {
    const x = samples[i]!;
    // Nothing is near a missing sample, nor it to anything: it is a stretch by itself.
    if (x - low <= stillness && high - x <= stillness) {
      if (x < low) low = x;
      if (x > high) high = x;
      continue;
    }
    if (i - from >= least) rests.push({ from, to: i });
    from = i;
    low = x;
    high = x;
  }
  open.from = from;
  open.low = low;
  open.high = high;
}
