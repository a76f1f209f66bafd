import { describe, expect, it } from 'vitest';
import { meanRate, truthOf } from '../synth/truth.js';
import { TRUE_NAMES, type TrueName } from './catalogue.js';
import { planOf, SPECIES, type StripKey, stripOf } from './strip.js';

const key = (rhythm: TrueName, more: Partial<StripKey> = {}): StripKey => ({
  rhythm,
  species: 'dog',
  noise: 'motion',
  level: 2,
  seed: 1,
  leads: 3,
  ...more,
});

const SEEDS = Array.from({ length: 12 }, (_, i) => i + 1);

describe('a generated strip', () => {
  it('is the same for the same base and key, and another for another base or seed', () => {
    const first = stripOf(key('sinus rhythm'), 1).leads;
    expect(stripOf(key('sinus rhythm'), 1).leads).toEqual(first);
    expect(stripOf(key('sinus rhythm'), 2).leads).not.toEqual(first);
    expect(stripOf(key('sinus rhythm', { seed: 2 }), 1).leads).not.toEqual(first);
  });

  it('shows one lead as the first of three', () => {
    const three = stripOf(key('sinus rhythm'), 1).leads;
    expect(stripOf(key('sinus rhythm', { leads: 1 }), 1).leads).toEqual(three.slice(0, 1));
  });

  it.each(TRUE_NAMES)('of %s can be planned at every rate of both species', (rhythm) => {
    for (const species of SPECIES) {
      for (const seed of SEEDS) {
        const { plan } = planOf(key(rhythm, { species, seed, noise: 'clean', level: 0 }), 1);
        const { beats } = truthOf(plan);
        for (const [i, { time }] of beats.slice(1).entries()) {
          expect(time - beats[i]!.time, `${species} ${seed}`).toBeGreaterThan(0.1);
        }
      }
    }
  });
});

describe.each(SPECIES)('atrial tachycardia of a %s, every second P conducted', (species) => {
  it('has as many lone P waves as beats, under T where they are to hide', () => {
    const away = { 'in T': [] as number[], 'beside T': [] as number[] };
    for (const where of ['in T', 'beside T'] as const) {
      for (const seed of SEEDS) {
        const { plan } = planOf(key(`atrial tachycardia 2:1, P ${where}`, { species, seed }), 1);
        const { beats, lonePWaves } = truthOf(plan);
        expect(Math.abs(beats.length - lonePWaves.length)).toBeLessThanOrEqual(1);
        const t = beats[3]!.t!;
        const p = lonePWaves.find(({ peak }) => peak > beats[3]!.time)!;
        away[where].push(Math.abs(p.peak - t.peak) / (t.end - t.onset));
      }
    }
    expect(Math.max(...away['in T'])).toBeLessThan(0.5);
    expect(Math.min(...away['beside T'])).toBeGreaterThan(0.5);
  });
});

describe('blocks', () => {
  it.each([
    ['second-degree block, 2:1', 1, 1],
    ['second-degree block, high-grade', 2, 3],
  ] as const)('%s leaves %d to %d P waves to a beat unconducted', (rhythm, least, most) => {
    for (const seed of SEEDS) {
      const { beats, lonePWaves } = truthOf(planOf(key(rhythm, { seed }), 1).plan);
      const ratio = lonePWaves.length / beats.length;
      expect(ratio).toBeGreaterThan(least - 0.3);
      expect(ratio).toBeLessThan(most + 0.3);
    }
  });

  it('of the third degree keep an escape slower than the atria', () => {
    for (const rhythm of [
      'third-degree block, wide escape',
      'third-degree block, narrow escape',
    ] as const) {
      for (const seed of SEEDS) {
        const { beats, lonePWaves } = truthOf(planOf(key(rhythm, { seed }), 1).plan);
        const atria = lonePWaves.map(({ peak }) => ({ time: peak }));
        expect(meanRate(beats)).toBeLessThan(meanRate(atria));
      }
    }
  });
});
