import { describe, expect, it } from 'vitest';
import {
  type Biquad,
  butterworthHighPass,
  butterworthLowPass,
} from '../../../src/signal/filter/biquad.js';

/** |H|² of sections in series at f Hz. */
function power(sections: readonly Biquad[], f: number, rate: number): number {
  const w = (2 * Math.PI * f) / rate;
  return sections.reduce((product, { b0, b1, b2, a1, a2 }) => {
    const size = (c0: number, c1: number, c2: number) =>
      (c0 + c1 * Math.cos(w) + c2 * Math.cos(2 * w)) ** 2 +
      (c1 * Math.sin(w) + c2 * Math.sin(2 * w)) ** 2;
    return (product * size(b0, b1, b2)) / size(1, a1, a2);
  }, 1);
}

const warp = (f: number, rate: number) => Math.tan((Math.PI * f) / rate);

describe.each([2, 4] as const)('a Butterworth filter of order %i', (order) => {
  it.each([
    [10, 250],
    [34, 250],
    [0.5, 1000],
  ])('passes half of the power at its cutoff of %d Hz at %d Hz', (cutoff, rate) => {
    expect(power(butterworthLowPass(order, cutoff, rate), cutoff, rate)).toBeCloseTo(0.5, 9);
    expect(power(butterworthHighPass(order, cutoff, rate), cutoff, rate)).toBeCloseTo(0.5, 9);
  });

  it('has the maximally flat response 1 / (1 + ratio^2n) of the warped frequencies', () => {
    for (const f of [1, 5, 20, 34, 50, 90]) {
      const ratio = warp(f, 250) / warp(34, 250);
      const low = 1 / (1 + ratio ** (2 * order));
      expect(power(butterworthLowPass(order, 34, 250), f, 250)).toBeCloseTo(low, 9);
      expect(power(butterworthHighPass(order, 34, 250), f, 250)).toBeCloseTo(1 - low, 9);
    }
  });
});

describe('scipy.signal.butter(2, 30, fs=250)', () => {
  it('gives the same coefficients', () => {
    // Printed by scipy 1.10.1.
    const [section] = butterworthLowPass(2, 30, 250);
    expect(section!.b0).toBeCloseTo(0.09131490043583196, 12);
    expect(section!.a1).toBeCloseTo(-0.9824057931083952, 12);
    expect(section!.a2).toBeCloseTo(0.34766539485172315, 12);
  });
});

it('refuses a cutoff beyond half of the sampling rate', () => {
  expect(() => butterworthLowPass(2, 125, 250)).toThrow(RangeError);
});
