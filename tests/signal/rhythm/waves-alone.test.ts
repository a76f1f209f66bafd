import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { hertz } from '../../../src/units/brands.js';
import { randomFrom } from '../../synth/random.js';
import { dogWaves, syntheticLead } from '../../tools/synthetic-strip.js';
import { patientOf } from './strips.js';

const RATE = 250;

/** A wave of four to five a second whose height waxes and wanes and whose axis turns over, as in torsade de pointes. */
function twisting(seconds: number, seed: number) {
  const random = randomFrom(seed);
  const samples = new Float64Array(seconds * RATE);
  let phase = 0;
  let pace = 4.3;
  for (let i = 0; i < samples.length; i++) {
    pace += (4.3 - pace) / RATE + (0.5 * random.gaussian()) / Math.sqrt(RATE);
    phase += (2 * Math.PI * pace) / RATE;
    const turn = Math.sin((Math.PI * i) / RATE / 3 + 0.6);
    const height = Math.sign(turn) * (0.2 + 0.8 * Math.abs(turn));
    samples[i] =
      height * (Math.sin(phase) + 0.25 * Math.sin(2 * phase + 1)) + 0.004 * random.gaussian();
  }
  return samples;
}

const read = (samples: Float64Array) =>
  analyseStrip([{ label: 'II', unit: 'mV', samplingRate: hertz(RATE), samples }], {
    patient: patientOf('dog'),
    breath: {},
  });

// Common practice: torsade de pointes is a polymorphic ventricular tachycardia whose axis turns about the baseline.
describe('waves alone, without rest and without a QRS', () => {
  it.each([9501, 9502, 9503])(
    'are told as ventricular tachycardia where the axis twists, seed %i',
    (seed) => {
      const { rhythms, rate } = read(twisting(24, seed));
      const told = rhythms.filter(({ name }) => name.startsWith('ventricular'));
      expect(told.reduce((sum, { from, to }) => sum + to - from, 0)).toBeGreaterThan(14);
      // What was counted in them is no rate.
      expect(rate).toBeNull();
    },
  );

  it('are not told where QRS go on among the waves of a lead that is shaken', () => {
    const beats = Array.from({ length: 40 }, (_, i) => 0.4 + 0.6 * i);
    const { samples } = syntheticLead({
      rate: RATE,
      duration: 24,
      beats,
      waves: () => dogWaves(100),
      noise: 0.004,
    });
    for (let i = 8 * RATE; i < 16 * RATE; i++) {
      samples[i] = samples[i]! + 0.8 * Math.sin((2 * Math.PI * 3 * i) / RATE);
    }
    const names = read(samples).rhythms.map(({ name }) => name);
    expect(names.filter((name) => name.startsWith('ventricular'))).toEqual([]);
  });
});
