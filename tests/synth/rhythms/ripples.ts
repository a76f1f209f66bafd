import type { Ripple } from '../beat-plan.js';
import type { Random } from '../random.js';

export interface RippleBand {
  /** Root mean square of the sum, mV. */
  readonly rms: number;
  /** Hz. */
  readonly from: number;
  /** Hz. */
  readonly to: number;
}

/**
 * Restless waves in a band: many sines of near frequencies, which drift in and out of step, so the
 * sum waxes, wanes and never repeats within a recording. The same at every sampling rate.
 */
export function ripplesIn({ rms, from, to }: RippleBand, random: Random): Ripple[] {
  const count = 14;
  return Array.from({ length: count }, () => ({
    amplitude: rms * Math.sqrt(2 / count),
    frequency: random.between(from, to),
    phase: random.between(0, 2 * Math.PI),
  }));
}
