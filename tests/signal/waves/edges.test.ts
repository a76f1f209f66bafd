import { describe, expect, it } from 'vitest';
import type { BeatPlan } from '../../synth/beat-plan.js';
import { RHYTHMS } from '../../synth/rhythms/index.js';
import { deviation, type Errors, mark, mean, type Taken, Tally } from './strip.js';

/**
 * Standard deviation of the errors that readers allow each other, s: CSE Working Party,
 * Recommendations for measurement standards in quantitative electrocardiography, Eur Heart J 6:815-825
 * (1985). Four of the figures stand as "CSE tolerance" in a public implementation of a delineator; that
 * of the P end is from memory, unverified. They were made for people, whose waves last longer.
 */
const TOLERANCE: Record<keyof Errors, number> = {
  pOnset: 0.0102,
  pEnd: 0.0127,
  qrsOnset: 0.0065,
  qrsEnd: 0.0116,
  tEnd: 0.0306,
};
const EDGES = Object.keys(TOLERANCE) as (keyof Errors)[];

const SEEDS = [301, 302];

function tallied(
  name: keyof typeof RHYTHMS,
  species: 'dog' | 'cat',
  how: Taken = {},
  change: (plan: BeatPlan) => BeatPlan = (plan) => plan,
): Tally {
  const tally = new Tally();
  for (const seed of SEEDS) {
    tally.add(mark(change(RHYTHMS[name]({ species, duration: 30, seed })), { seed, ...how }));
  }
  return tally;
}

function expectWithin(tally: Tally, edges: readonly (keyof Errors)[] = EDGES): void {
  for (const edge of edges) {
    expect(tally.errors[edge].length, edge).toBeGreaterThan(20);
    expect(deviation(tally.errors[edge]), `spread of ${edge}`).toBeLessThan(TOLERANCE[edge]);
    expect(Math.abs(mean(tally.errors[edge])), `mean of ${edge}`).toBeLessThan(0.012);
  }
}

describe.each(['dog', 'cat'] as const)(
  'edges in the %s at mild noise, within the CSE tolerances',
  (species) => {
    it.each([
      'sinus',
      'sinus-tachycardia',
      'sinus-bradycardia',
      'breath-linked-sinus',
      'tall-t-sinus',
      'av-block-first',
    ] as const)('%s', (name) => expectWithin(tallied(name, species)));

    it('upside down', () => {
      expectWithin(tallied('sinus', species, { change: (samples) => samples.map((x) => -x) }));
    });

    it('with T pointing down', () => {
      const down = (plan: BeatPlan): BeatPlan => ({
        ...plan,
        beats: plan.beats.map((beat) => ({
          ...beat,
          T: beat.T && { ...beat.T, amplitude: -beat.T.amplitude },
        })),
      });
      expectWithin(tallied('sinus', species, {}, down));
    });

    it.each([128, 250, 1000, 2000])('at %i Hz', (rate) => {
      expectWithin(tallied('sinus', species, { rate }));
    });

    it('at 100 Hz, where the muscle noise of the generator has no band left', () => {
      expectWithin(tallied('sinus', species, { rate: 100, kinds: ['wander', 'mains'] }), [
        'pOnset',
        'pEnd',
        'qrsEnd',
        'tEnd',
      ]);
    });

    it('from three leads', () => {
      expectWithin(tallied('sinus', species, { leads: ['I', 'II', 'aVF'] }));
    });
  },
);

describe('wide beats', () => {
  it('are read as wide: 95 ms in the dog, read as 70 to 110', () => {
    for (const name of ['ventricular-bigeminy', 'idioventricular'] as const) {
      const { truth, waves } = mark(RHYTHMS[name]({ species: 'dog', duration: 30, seed: 303 }));
      const wide = waves.beats.filter((_, k) => truth.beats[k]?.kind === 'ventricular');
      expect(wide.length).toBeGreaterThan(15);
      for (const { qrs } of wide) {
        expect(qrs!.end - qrs!.onset).toBeGreaterThan(0.07);
        expect(qrs!.end - qrs!.onset).toBeLessThan(0.11);
      }
    }
  });
});

describe('a T of two lobes', () => {
  it('ends with its second lobe', () => {
    const biphasic = (plan: BeatPlan): BeatPlan => ({
      ...plan,
      // The true T, turned over, becomes the second lobe; the first is put where S is, later and wider.
      beats: plan.beats.map((beat) => ({
        ...beat,
        T: beat.T && { ...beat.T, amplitude: -beat.T.amplitude, rise: beat.T.rise / 2 },
        S: { amplitude: 0.25, centre: 0.1, rise: 0.014, fall: 0.012 },
      })),
    });
    const { truth, waves } = mark(
      biphasic(RHYTHMS.sinus({ species: 'dog', duration: 20, seed: 304 })),
    );
    const errors = waves.beats.flatMap(({ t }, k) => {
      const span = truth.beats[k]?.t;
      return t && span ? [t.end - span.end] : [];
    });
    expect(errors.length).toBeGreaterThan(20);
    expect(Math.abs(mean(errors))).toBeLessThan(0.012);
    const lengths = waves.beats.flatMap(({ t }) => (t ? [t.end - t.onset] : []));
    expect(mean(lengths)).toBeGreaterThan(0.095);
  });
});

describe('noise', () => {
  it('lowers confidence, and then the waves are not told', () => {
    const sureness = (['mild', 'moderate', 'severe'] as const).map((level) => {
      const { waves } = mark(RHYTHMS.sinus({ species: 'cat', duration: 30, seed: 305 }), { level });
      return {
        p: mean(waves.beats.map(({ p }) => p?.confidence ?? 0)),
        qrs: mean(waves.beats.map(({ qrs }) => qrs?.confidence ?? 0)),
        t: mean(waves.beats.map(({ t }) => t?.confidence ?? 0)),
      };
    });
    const [mild, moderate, severe] = sureness;
    for (const wave of ['p', 'qrs', 't'] as const) {
      expect(mild![wave]).toBeGreaterThan(0.8);
      expect(moderate![wave]).toBeLessThan(mild![wave]);
      expect(severe![wave]).toBeLessThan(moderate![wave]);
    }
    expect(severe!.p).toBeLessThan(0.2);
  });
});
