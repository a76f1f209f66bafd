import { expect, it } from 'vitest';
import { findWaves } from '../../../src/signal/waves/find-waves.js';
import { seconds } from '../../../src/units/brands.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';

/** A cat's, through a recorder that rounds off what is shorter than 20 ms. */
const P: Bell = { at: -0.062, height: 0.11, width: 0.0095 };
const QRS: readonly Bell[] = [
  { at: -0.017, height: -0.03, width: 0.008 },
  { at: 0, height: 0.7, width: 0.009 },
  { at: 0.02, height: -0.1, width: 0.008 },
  { at: 0.09, height: -0.12, width: 0.015 },
];
const TIMES = Array.from({ length: 40 }, (_, i) => 0.4 + 0.36 * i);

const marked = (waves: readonly Bell[]) =>
  findWaves(
    [syntheticLead({ rate: 200, duration: 15, beats: TIMES, waves: () => waves, noise: 0.003 })],
    TIMES.map((time) => ({ time: seconds(time), lead: 0 })),
  ).beats;

const beforeR = (waves: readonly Bell[]): number[] =>
  marked(waves).map(({ time, qrs }) => time - (qrs?.onset ?? Number.NaN));

it('a P that a filter ties to the QRS is parted from it', () => {
  for (const { time, p, qrs } of marked([P, ...QRS]).slice(1)) {
    expect(time - (qrs?.onset ?? Number.NaN)).toBeLessThan(0.045);
    expect(time - (p?.peak ?? Number.NaN)).toBeCloseTo(0.062, 2);
  }
});

it('the first wave of a wide QRS, which goes over into the next without a rest, stays a part of it', () => {
  const wide: readonly Bell[] = [
    { at: -0.05, height: 0.25, width: 0.01 },
    { at: 0, height: -0.8, width: 0.018 },
    { at: 0.12, height: 0.2, width: 0.025 },
  ];
  for (const onset of beforeR(wide)) expect(onset).toBeGreaterThan(0.06);
});
