import { describe, expect, it } from 'vitest';
import { withoutHum } from '../../../src/signal/filter/hum.js';
import { hertz } from '../../../src/units/brands.js';
import { makeNoise, withNoise } from '../../synth/noise.js';
import { randomFrom } from '../../synth/random.js';
import { renderLead } from '../../synth/render.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';

const RATE = 500;

const lead = (samples: Float64Array, rate = RATE) => ({
  label: 'II',
  unit: 'mV',
  samplingRate: hertz(rate),
  samples,
});

const clean = (rate = RATE): Float64Array =>
  renderLead(RHYTHMS.sinus({ species: 'cat', duration: 20, seed: 41 }), rate);

/** Root mean square of the difference, mV. */
function off(one: Float64Array, other: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < one.length; i += 1) sum += (one[i]! - other[i]!) ** 2;
  return Math.sqrt(sum / one.length);
}

describe('hum of the power line', () => {
  it.each([
    [50, 0.1],
    [60, 0.1],
    [60, 0.3],
  ] as const)('of %d Hz and %d mV goes, and P, QRS and T stay', (mains, amplitude) => {
    const hum = makeNoise('mains', {
      length: 20 * RATE,
      samplingRate: RATE,
      amplitude,
      random: randomFrom(17),
      mains,
    });
    const heard = withNoise(clean(), hum);
    const left = off(withoutHum(lead(heard)).samples, clean());
    expect(off(heard, clean())).toBeGreaterThan(0.5 * amplitude);
    // A tenth of a cat's P (0.12 mV) at most, from 0.3 mV of hum.
    expect(left).toBeLessThan(0.07 * amplitude);
  });

  it('leaves a lead without hum as it is', () => {
    const quiet = lead(clean());
    expect(withoutHum(quiet)).toBe(quiet);
  });

  it('keeps what is missing missing, and the rest whole', () => {
    const hum = makeNoise('mains', {
      length: 20 * RATE,
      samplingRate: RATE,
      amplitude: 0.1,
      random: randomFrom(18),
    });
    const heard = withNoise(clean(), hum).fill(Number.NaN, 3 * RATE, 7 * RATE);
    const { samples } = withoutHum(lead(heard));
    expect(samples.every((value, i) => Number.isNaN(value) === Number.isNaN(heard[i]!))).toBe(true);
    expect(off(samples.subarray(8 * RATE), clean().subarray(8 * RATE))).toBeLessThan(0.01);
  });

  it('does nothing to a lead whose rate cannot hold it', () => {
    const slow = lead(clean(100), 100);
    expect(withoutHum(slow)).toBe(slow);
  });
});
