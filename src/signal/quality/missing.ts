import type { Run } from '../filter/runs.js';
import type { Blemish } from './span.js';

/** No QRS fits into a gap this short (the narrowest last about 30 ms), so it is bridged; in s. */
const bridgeable = 0.02;

/** Stretches without valid samples, except those too short to hide a beat. `holes` are the gaps of a lead of so many samples. */
export function missing(holes: readonly Run[], length: number, rate: number): Blemish[] {
  return holes
    .filter((gap) => !isBridgeable(gap, length, rate))
    .map((gap) => ({ ...gap, why: 'no samples' as const }));
}

/**
 * The samples with each of their `holes` too short to hide a beat filled by a straight line between its
 * neighbours; the very same array where there is no such gap.
 */
export function bridged(samples: Float64Array, holes: readonly Run[], rate: number): Float64Array {
  const short = holes.filter((gap) => isBridgeable(gap, samples.length, rate));
  if (short.length === 0) return samples;
  const out = samples.slice();
  for (const { from, to } of short) {
    const left = samples[from - 1]!;
    const step = (samples[to]! - left) / (to - from + 1);
    for (let i = from; i < to; i++) out[i] = left + step * (i - from + 1);
  }
  return out;
}

const isBridgeable = (gap: Run, length: number, rate: number) =>
  gap.from > 0 && gap.to < length && gap.to - gap.from <= bridgeable * rate;
