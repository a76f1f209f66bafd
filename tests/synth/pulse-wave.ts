import type { Random } from './random.js';

/** What a sensor of the pulse sees. */
export interface PulsePlan {
  /** s. */
  readonly duration: number;
  /** Hz. */
  readonly samplingRate: number;
  /** When a pulse leaves the heart (the R times of the beats that move blood), s. */
  readonly beats: readonly number[];
  readonly random: Random;
}

/** From R to the wave at the artery, s. Our own choice, after the usual look; no source. */
const TRANSIT = 0.12;
const RISE = 0.07;

/**
 * Arterial pressure, mmHg: each beat rises within 70 ms from where the pressure stands, falls, shows a small second
 * wave, and runs off to `rest` with the time constant `runOff` s until the next one. The shape is our own.
 */
export function arterialPressure(
  { duration, samplingRate, beats, random }: PulsePlan,
  { stroke = 28, rest = 12, runOff = 1.6, start = 75, noise = 0.4 } = {},
): Float64Array {
  const arrivals = beats.map((beat) => beat + TRANSIT);
  let level = start;
  let next = 0;
  let since = Number.POSITIVE_INFINITY;
  return Float64Array.from({ length: Math.round(duration * samplingRate) }, (_, i) => {
    const time = i / samplingRate;
    while (next < arrivals.length && arrivals[next]! <= time) {
      since = arrivals[next]!;
      next += 1;
    }
    const age = time - since;
    const rises = age < RISE;
    const second = 4 * Math.exp(-(((age - 0.24) / 0.035) ** 2));
    level += rises
      ? stroke / (RISE * samplingRate)
      : -((level - rest) / runOff) * (1 / samplingRate);
    return level + (age < 1 ? second : 0) + noise * random.gaussian();
  });
}

/** A plethysmogram of height 1 around 0, sensor noise after the last pulse. */
export function plethysmogram(
  { duration, samplingRate, beats, random }: PulsePlan,
  noise = 0.01,
): Float64Array {
  return Float64Array.from({ length: Math.round(duration * samplingRate) }, (_, i) => {
    const time = i / samplingRate - TRANSIT - 0.08;
    const sum = beats.reduce((all, beat) => {
      const age = time - beat;
      if (age < 0 || age > 1) return all;
      return all + (age / 0.1) * Math.exp(1 - age / 0.1);
    }, 0);
    return sum + noise * random.gaussian();
  });
}
