import { describe, expect, it } from 'vitest';
import { averageOf } from '../../../src/signal/waves/average.js';
import { randomFrom } from '../../synth/random.js';

describe('the standard error of an average', () => {
  const random = randomFrom(7);
  const noise = Float64Array.from({ length: 20_000 }, () => 0.05 * random.gaussian());
  const positions = Array.from({ length: 25 }, (_, k) => 400 + 700 * k);

  it('is the spread of one beat over the root of their number: 0.05 mV, 25 beats, 0.01 mV', () => {
    const { error, count } = averageOf(noise, positions, 100, 100);
    expect(count).toBe(25);
    expect(error).toBeGreaterThan(0.007);
    expect(error).toBeLessThan(0.011);
  });

  it.each([97, 98, 99, 100])(
    'does not shrink where the first beat begins %i samples in',
    (first) => {
      const { error } = averageOf(noise, [first - 1, ...positions.slice(1)], 100, 100);
      expect(error).toBeGreaterThan(0.007);
    },
  );
});
