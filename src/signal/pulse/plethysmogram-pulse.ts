import { quantile } from '../filter/spread.js';
import { reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import type { Pulse } from './pulse.js';
import { pulseRuns } from './pulse-runs.js';
import { smoothed, upstrokes } from './upstrokes.js';

const IS_PLETHYSMOGRAM = /pleth|\bppg\b/i;
/** A displayed trend has no pulse in it, Hz. */
const SLOWEST_SAMPLING = 20;

/** Whether a channel is a plethysmogram, by its label, sampled often enough to show a pulse. */
export const isPlethysmogram = ({ label, samplingRate }: Channel): boolean =>
  IS_PLETHYSMOGRAM.test(label) && samplingRate >= SLOWEST_SAMPLING;

// The constants of this file are choices of the method, made by trial on generated waves: not clinical numbers.

const SMOOTH = 0.04;
/** The usual height is told from windows of this length, s; at most three in four of them may lack a pulse. */
const WINDOW = 2;
const WITH_PULSE = 0.8;
/** Share of the usual height that makes a pulse. */
const LEAST_PULSE = 0.35;
/** A shorter rest may be a pause between two beats, s. */
const LASTING = 3;
const MISSED_AFTER = 1;

/**
 * What a plethysmogram says of the pulse, in whatever unit it has. It never says that there is none: an oximeter that
 * slipped off, or a limb that gets no blood under a cuff or in the cold, loses the pulse as well (common practice).
 */
export function plethysmogramPulses({ samples, samplingRate, label }: Channel): Pulse[] {
  const wave = smoothed(samples, samplingRate, SMOOTH);
  const least = LEAST_PULSE * usualHeight(wave, samplingRate);
  if (!(least > 0)) return [];
  const runs = pulseRuns(upstrokes(wave, samplingRate, least));
  const end = wave.length / samplingRate;
  return runs.flatMap((run, i): Pulse[] => {
    const to = runs[i + 1]?.from ?? end;
    const present: Pulse = {
      from: run.from,
      to: run.to,
      pulse: 'present',
      holds: 'throughout',
      because: [
        reason('plethysmogram pulses', {
          label,
          count: run.count,
          from: run.from,
          to: run.to,
          rate: 60 / run.interval,
        }),
      ],
    };
    if (to - run.to < LASTING) return [present];
    return [
      present,
      {
        from: run.to + Math.max(MISSED_AFTER, 1.5 * run.interval),
        to,
        pulse: 'cannot tell',
        holds: 'throughout',
        because: [reason('plethysmogram loses its pulse', { label, at: run.to })],
      },
    ];
  });
}

function usualHeight(wave: Float64Array, samplingRate: number): number {
  const step = Math.round(WINDOW * samplingRate);
  const heights: number[] = [];
  for (let from = 0; from + step <= wave.length; from += step) {
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (const value of wave.subarray(from, from + step)) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
    if (high >= low) heights.push(high - low);
  }
  return quantile(heights, WITH_PULSE);
}
