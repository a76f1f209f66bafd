import { describe, expect, it } from 'vitest';
import { makeNoise, NOISE_LEVELS, type NoiseKind, withNoise } from './noise.js';
import { randomFrom } from './random.js';

const KINDS = Object.keys(NOISE_LEVELS) as NoiseKind[];
const FS = 500;
const LENGTH = 60 * FS;

function made(kind: NoiseKind, amplitude = 1, seed = 5, mains: 50 | 60 = 60) {
  return makeNoise(kind, {
    length: LENGTH,
    samplingRate: FS,
    amplitude,
    random: randomFrom(seed),
    mains,
  });
}

function peak(samples: Float64Array): number {
  return samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
}

function rms(samples: Float64Array): number {
  return Math.sqrt(samples.reduce((sum, value) => sum + value * value, 0) / samples.length);
}

/** Height of the sine at `frequency` Hz in the samples. */
function sineAt(samples: Float64Array, frequency: number): number {
  let re = 0;
  let im = 0;
  for (const [i, value] of samples.entries()) {
    re += value * Math.cos((2 * Math.PI * frequency * i) / FS);
    im += value * Math.sin((2 * Math.PI * frequency * i) / FS);
  }
  return (2 * Math.hypot(re, im)) / samples.length;
}

describe('every noise', () => {
  it.each(KINDS)('%s is the same for the same seed, another for another', (kind) => {
    expect(made(kind).samples).toEqual(made(kind).samples);
    expect(made(kind, 1, 6).samples).not.toEqual(made(kind).samples);
  });

  it.each(KINDS)('%s grows in step with its amplitude', (kind) => {
    expect(peak(made(kind, 3).samples) / peak(made(kind, 1).samples)).toBeCloseTo(3, 6);
  });

  it.each(KINDS)('%s is silent outside its spans', (kind) => {
    const { samples, spans } = made(kind);
    expect(spans.length).toBeGreaterThan(0);
    for (const [i, value] of samples.entries()) {
      const time = i / FS;
      if (!spans.some(({ from, to }) => time >= from && time <= to)) expect(value).toBe(0);
    }
  });

  it.each(KINDS)('%s rises from mild through moderate to severe', (kind) => {
    const { mild, moderate, severe } = NOISE_LEVELS[kind];
    expect(mild).toBeLessThan(moderate);
    expect(moderate).toBeLessThan(severe);
  });
});

describe('each noise at amplitude 1 mV', () => {
  it('wander peaks near 1 mV and stays under 0.5 Hz', () => {
    const { samples } = made('wander');
    expect(peak(samples)).toBeGreaterThan(0.7);
    expect(peak(samples)).toBeLessThanOrEqual(1);
    const steepest = samples.slice(1).map((value, i) => (value - samples[i]!) * FS);
    expect(peak(steepest)).toBeLessThan(2 * Math.PI * 0.5);
  });

  it.each([50, 60] as const)('mains is a sine at %d Hz', (frequency) => {
    const { samples } = made('mains', 1, 5, frequency);
    expect(sineAt(samples, frequency)).toBeGreaterThan(0.65);
    expect(sineAt(samples, frequency === 50 ? 60 : 50)).toBeLessThan(0.05);
  });

  it('muscle has a root mean square of 1 mV and little under 10 Hz', () => {
    const { samples } = made('muscle');
    expect(rms(samples)).toBeCloseTo(1, 9);
    const slow = [1, 2, 5, 8].map((frequency) => sineAt(samples, frequency));
    const quick = [60, 80, 100, 150].map((frequency) => sineAt(samples, frequency));
    expect(Math.max(...slow)).toBeLessThan(Math.max(...quick));
  });

  it.each(['motion', 'electrosurgery'] as const)('%s peaks between 0.5 and 1 mV', (kind) => {
    const { samples } = made(kind);
    expect(peak(samples)).toBeGreaterThan(0.5);
    expect(peak(samples)).toBeLessThanOrEqual(1);
  });
});

describe('withNoise', () => {
  it('adds sample by sample', () => {
    const noise = { samples: Float64Array.of(1, -2), spans: [] };
    expect([...withNoise(Float64Array.of(10, 20), noise, noise)]).toEqual([12, 16]);
  });
});
