import type { Channel } from '../../src/signal/waveform.js';
import { hertz } from '../../src/units/brands.js';

/** A bell-shaped wave: peak `at` s after the R, `height` in mV, standard deviation `width` in s. */
export interface Bell {
  readonly at: number;
  readonly height: number;
  readonly width: number;
}

export interface StripPlan {
  readonly rate: number;
  readonly duration: number;
  /** R times in s. */
  readonly beats: readonly number[];
  /** The waves of a beat; `index` counts beats from 0. */
  readonly waves: (index: number) => readonly Bell[];
  /** Standard deviation of white noise in mV. */
  readonly noise?: number;
  /** Amplitude of mains in mV, and its frequency. */
  readonly mains?: { readonly height: number; readonly frequency: number };
  /** Amplitude of a slow swing in mV, and its period in s. */
  readonly wander?: { readonly height: number; readonly period: number };
  readonly seed?: number;
}

/** A lead II made of bells, with known R times. The same plan gives the same samples. */
export function syntheticLead(plan: StripPlan): Channel {
  const { rate, duration, noise = 0, mains, wander, seed = 1 } = plan;
  const random = randomFrom(seed);
  const samples = new Float64Array(Math.round(duration * rate));
  for (let i = 0; i < samples.length; i++) {
    const t = i / rate;
    let x = noise * normal(random);
    if (mains) x += mains.height * Math.sin(2 * Math.PI * mains.frequency * t + 1);
    if (wander) x += wander.height * Math.sin((2 * Math.PI * t) / wander.period + 2);
    samples[i] = x;
  }
  plan.beats.forEach((beat, index) => {
    for (const { at, height, width } of plan.waves(index)) {
      const centre = beat + at;
      const to = Math.min(samples.length - 1, Math.floor((centre + 6 * width) * rate));
      for (let i = Math.max(0, Math.ceil((centre - 6 * width) * rate)); i <= to; i++) {
        const z = (i / rate - centre) / width;
        samples[i] = samples[i]! + height * Math.exp((-z * z) / 2);
      }
    }
  });
  return { label: 'II', unit: 'mV', samplingRate: hertz(rate), samples };
}

/** P, Q, R, S and T about as in lead II of a dog at this rate; `t` is the height of T over R. */
export function dogWaves(beatsPerMinute: number, r = 1.5, t = 0.2): Bell[] {
  const qt = Math.min(0.24, 0.55 * (60 / beatsPerMinute));
  return [
    { at: -0.1, height: 0.15 * r, width: 0.014 },
    { at: -0.016, height: -0.08 * r, width: 0.005 },
    { at: 0, height: r, width: 0.009 },
    { at: 0.018, height: -0.12 * r, width: 0.006 },
    { at: 0.8 * qt, height: t * r, width: 0.028 },
  ];
}

/** The same for a cat. */
export function catWaves(beatsPerMinute: number, r = 0.6, t = 0.25): Bell[] {
  const qt = Math.min(0.18, 0.6 * (60 / beatsPerMinute));
  return [
    { at: -0.065, height: 0.15 * r, width: 0.009 },
    { at: 0, height: r, width: 0.007 },
    { at: 0.014, height: -0.15 * r, width: 0.005 },
    { at: 0.78 * qt, height: t * r, width: 0.017 },
  ];
}

/** Beats at a rate from `from` to `to` s, each interval up to `unevenness` (share) longer or shorter. */
export function beatTimes(
  beatsPerMinute: number,
  from: number,
  to: number,
  unevenness = 0,
  seed = 1,
): number[] {
  const random = randomFrom(seed);
  const times: number[] = [];
  for (let t = from; t < to; ) {
    times.push(t);
    t += (60 / beatsPerMinute) * (1 + unevenness * (2 * random() - 1));
  }
  return times;
}

/** Numbers from 0 to 1 that depend on the seed alone (mulberry32). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 15), z | 1);
    z ^= z + Math.imul(z ^ (z >>> 7), z | 61);
    return ((z ^ (z >>> 14)) >>> 0) / 4294967296;
  };
}

/** Box and Muller's normal deviate. */
export function normal(random: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}
