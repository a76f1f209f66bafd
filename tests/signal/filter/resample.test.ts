import { describe, expect, it } from 'vitest';
import { resample } from '../../../src/signal/filter/resample.js';

describe.each([100, 128, 250, 360, 500, 1000, 2000])('from %i Hz to 250 Hz', (rate) => {
  it('keeps a slow wave where it is in time', () => {
    const wave = (t: number) => Math.sin(2 * Math.PI * 2 * t);
    const x = Float64Array.from({ length: rate * 4 }, (_, i) => wave(i / rate));
    const y = resample(x, rate, 250);
    expect(Math.abs(y.length - 1000)).toBeLessThanOrEqual(2);
    for (let j = 5; j < y.length - 5; j++)
      expect(Math.abs(y[j]! - wave(j / 250))).toBeLessThan(6e-3);
  });

  it('is NaN only where it would rest on a NaN', () => {
    const x = new Float64Array(rate * 4).fill(1);
    x.fill(Number.NaN, rate, 2 * rate);
    const y = resample(x, rate, 250);
    y.forEach((v, j) => {
      const t = j / 250;
      if (t < 1 - 0.012 || t > 2 + 0.012) expect(v).toBeCloseTo(1, 12);
      if (t > 1 + 0.012 && t < 2 - 0.012) expect(v).toBeNaN();
    });
  });
});

it('averages 500 Hz to 250 Hz without delay: half, whole and half of three samples', () => {
  const y = resample(Float64Array.of(0, 0, 8, 4, 0, 0, 0), 500, 250);
  expect([...y]).toEqual([0, (8 + 4 / 2) / 2, 4 / 2 / 2, 0]);
});
