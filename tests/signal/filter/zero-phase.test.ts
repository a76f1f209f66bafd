import { expect, it } from 'vitest';
import { bandPass } from '../../../src/signal/filter/zero-phase.js';

const RATE = 250;
const sine = (f: number, seconds: number) =>
  Float64Array.from({ length: seconds * RATE }, (_, i) => Math.sin((2 * Math.PI * f * i) / RATE));
const size = (x: Float64Array) =>
  Math.sqrt(x.slice(RATE, -RATE).reduce((sum, v) => sum + v * v, 0) / (x.length - 2 * RATE));

it('passes the middle of its band and stops wander and mains', () => {
  const gain = (f: number) => size(bandPass(sine(f, 10), RATE, 5, 25)) / size(sine(f, 10));
  expect(gain(11)).toBeGreaterThan(0.9);
  expect(gain(0.3)).toBeLessThan(0.001);
  expect(gain(50)).toBeLessThan(0.01);
});

it('does not move a peak in time', () => {
  const x = Float64Array.from({ length: 1000 }, (_, i) => Math.exp(-(((i - 400) / 3) ** 2) / 2));
  const y = bandPass(x, RATE, 5, 30);
  expect(y.indexOf(Math.max(...y))).toBe(400);
  for (let k = 1; k < 100; k++) expect(y[400 - k]).toBeCloseTo(y[400 + k]!, 9);
});

it('keeps a gap as it is and lets nothing of it reach what follows', () => {
  const x = sine(10, 8);
  const whole = bandPass(x, RATE, 5, 25);
  const broken = x.slice();
  broken.fill(Number.NaN, 900, 1000);
  const y = bandPass(broken, RATE, 5, 25);
  expect(y.findIndex(Number.isNaN)).toBe(900);
  expect(y.subarray(900, 1000).every(Number.isNaN)).toBe(true);
  expect(y.filter(Number.isNaN)).toHaveLength(100);
  // The transient at the rim of the gap has faded after half a second.
  for (let i = 1125; i < 1800; i++) expect(y[i]).toBeCloseTo(whole[i]!, 2);
});

it('gives nothing for a constant, from the first sample on', () => {
  const y = bandPass(new Float64Array(500).fill(3), RATE, 5, 25);
  for (const v of y) expect(Math.abs(v)).toBeLessThan(1e-9);
});

it.each([0, 1, 2])('takes %i samples without complaint', (n) => {
  expect(bandPass(new Float64Array(n), RATE, 5, 25)).toHaveLength(n);
});
