import { describe, expect, it } from 'vitest';
import { coveredShare } from './covered-p.js';
import { planOf } from './strip.js';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

const shares = (rhythm: Parameters<typeof planOf>[0]['rhythm']): number[] =>
  (['dog', 'cat'] as const).flatMap((species) =>
    SEEDS.map((seed) =>
      coveredShare(planOf({ rhythm, species, noise: 'clean', level: 0, seed, leads: 1 }, 3).plan),
    ),
  );

describe('P waves that the eye does not find', () => {
  it('are half of those whose other half stands under T', () => {
    for (const share of shares('atrial tachycardia 2:1, P in T')) {
      expect(share).toBeGreaterThan(0.4);
    }
  });

  it('are not all of those that stand beside T', () => {
    expect(Math.min(...shares('atrial tachycardia 2:1, P beside T'))).toBeLessThan(0.1);
  });

  it('are none of those of a slow sinus rhythm', () => {
    expect(shares('sinus bradycardia')).toEqual(SEEDS.flatMap(() => [0, 0]));
  });
});
