import { describe, expect, it } from 'vitest';
import { coveredOrOnTShare, coveredShare } from './covered-p.js';
import { planOf } from './strip.js';

const SEEDS = Array.from({ length: 8 }, (_, i) => i + 1);

const shares = (rhythm: Parameters<typeof planOf>[0]['rhythm'], shareOf = coveredShare): number[] =>
  (['dog', 'cat'] as const).flatMap((species) =>
    SEEDS.map((seed) =>
      shareOf(planOf({ rhythm, species, noise: 'clean', level: 0, seed, leads: 1 }, 3).plan),
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
    expect(shares('sinus bradycardia', coveredOrOnTShare)).toEqual(SEEDS.flatMap(() => [0, 0]));
  });

  it('are all, or may be parts of T, in few of those that stand beside T', () => {
    const beside = shares('atrial tachycardia 2:1, P beside T', coveredOrOnTShare);
    const unsure = beside.filter((share) => share >= 0.9).length;
    expect(unsure).toBeGreaterThan(0);
    expect(unsure).toBeLessThan(beside.length / 4);
  });
});
