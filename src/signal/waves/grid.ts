import { isWhole } from '../filter/excerpt.js';
import { resample } from '../filter/resample.js';
import type { Channel } from '../waveform.js';

/** Waves are looked for on this grid, whatever rate a lead was recorded at; in Hz. */
export const gridRate = 500;

/** Seconds as whole grid steps. */
export const steps = (seconds: number): number => Math.round(seconds * gridRate);

/**
 * The lead on the grid, in mV; NaN where it cannot be read, except that holes of up to 20 ms are
 * bridged by a straight line, since no wave fits into them.
 */
export function onGrid({ samples, samplingRate }: Channel): Float64Array {
  const grid = resample(samples, samplingRate, gridRate);
  bridgeShortHoles(grid, steps(0.02));
  return grid;
}

function bridgeShortHoles(samples: Float64Array, most: number): void {
  if (isWhole(samples)) return;
  for (let i = 1; i < samples.length; i++) {
    if (!Number.isNaN(samples[i])) continue;
    let end = i;
    while (end < samples.length && Number.isNaN(samples[end])) end++;
    if (end < samples.length && end - i <= most && !Number.isNaN(samples[i - 1])) {
      const left = samples[i - 1]!;
      const rise = (samples[end]! - left) / (end - i + 1);
      for (let k = i; k < end; k++) samples[k] = left + rise * (k - i + 1);
    }
    i = end;
  }
}
