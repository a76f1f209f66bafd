import { medianOfFinite } from './filter/order-statistics.js';
import type { Channel } from './waveform.js';

/** s: at the slowest heart that a lead shows, half of such windows and more hold a beat. Own choice, not a clinical number. */
const WINDOW = 2;

/**
 * mV between the lowest and the highest sample of a lead, as it is in half of all windows of two seconds:
 * a jolt or a burst of electrosurgery does not tell, nor does an offset. NaN where no sample is finite.
 */
export function usualSwing({ samples, samplingRate }: Channel): number {
  const size = Math.max(2, Math.round(WINDOW * samplingRate));
  const swings = new Float64Array(Math.ceil(samples.length / size));
  for (let window = 0; window < swings.length; window++) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    const end = Math.min(samples.length, (window + 1) * size);
    for (let i = window * size; i < end; i++) {
      const sample = samples[i] as number;
      if (sample < low) low = sample;
      if (sample > high) high = sample;
    }
    swings[window] = high >= low ? high - low : Number.NaN;
  }
  return medianOfFinite(swings);
}
