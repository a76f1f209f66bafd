import { describe, expect, it } from 'vitest';
import { detectBeats } from '../../../src/signal/beats/detect.js';
import { readableSamples, readableSpans } from '../../../src/signal/quality/readable-lead.js';
import { findWaves } from '../../../src/signal/waves/find-waves.js';
import type { BeatPlan } from '../../synth/beat-plan.js';
import type { NoiseLevel } from '../../synth/noise.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { channels, isAt, mark, type Taken, Tally } from './strip.js';

const SEEDS = [401, 402, 403];

function tallied(name: RhythmName, species: 'dog' | 'cat', how: Taken, rate?: number): Tally {
  const tally = new Tally();
  for (const seed of SEEDS) {
    const setting = { species, duration: 30, seed, ...(rate === undefined ? {} : { rate }) };
    tally.add(mark(RHYTHMS[name](setting), { seed, ...how }));
  }
  return tally;
}

describe.each(['mild', 'moderate'] as const)('P waves at %s noise', (level) => {
  describe.each(['dog', 'cat'] as const)('%s', (species) => {
    it.each([
      'sinus',
      'sinus-tachycardia',
      'sinus-pause',
      'breath-linked-sinus',
      'tall-t-sinus',
      'supraventricular-premature',
      'av-block-first',
      'ventricular-singles',
      'ventricular-bigeminy',
    ] as const)(
      'are found in %s, nearly all of them, and nearly all of those found are true',
      (name) => {
        const tally = tallied(name, species, { level });
        expect(tally.found).toBeGreaterThan(40);
        expect(tally.sensitivity).toBeGreaterThanOrEqual(0.97);
        expect(tally.precision).toBeGreaterThanOrEqual(0.97);
      },
    );

    it.each([
      'atrial-fibrillation',
      'atrial-standstill',
      'supraventricular-tachycardia',
      'ventricular-tachycardia',
      'idioventricular',
    ] as const)('are never invented in %s', (name) => {
      for (const seed of SEEDS) {
        const { waves } = mark(RHYTHMS[name]({ species, duration: 30, seed }), { level, seed });
        expect(waves.beats.filter(({ p }) => p)).toEqual([]);
        expect(waves.loneP).toEqual([]);
      }
    });
  });
});

describe('fast feline rates', () => {
  it.each([230, 245, 260])('keep their P at %i beats/min', (rate) => {
    const tally = tallied('sinus', 'cat', { level: 'mild' }, rate);
    expect(tally.sensitivity).toBeGreaterThanOrEqual(0.97);
    expect(tally.precision).toBe(1);
  });
});

describe('fibrillating atria', () => {
  it.each([2, 4, 7])('show no P however coarse, here %i times', (factor) => {
    for (const species of ['dog', 'cat'] as const) {
      for (const seed of [411, 412]) {
        const plan = RHYTHMS['atrial-fibrillation']({ species, duration: 40, seed });
        const ripples = plan.ripples.map((r) => ({ ...r, amplitude: factor * r.amplitude }));
        const { waves } = mark({ ...plan, ripples }, { seed });
        expect(waves.beats.filter(({ p }) => p)).toEqual([]);
      }
    }
  });
});

describe('ventricular beats among sinus beats', () => {
  it.each([
    'ventricular-singles',
    'ventricular-pairs',
    'ventricular-bigeminy',
    'ventricular-trigeminy',
    'ventricular-runs',
  ] as const)('have no P in %s', (name) => {
    for (const species of ['dog', 'cat'] as const) {
      const { truth, waves } = mark(RHYTHMS[name]({ species, duration: 30, seed: 421 }));
      const wide = waves.beats.filter((_, k) => truth.beats[k]?.kind === 'ventricular');
      expect(wide.length).toBeGreaterThan(3);
      expect(wide.filter(({ p }) => p)).toEqual([]);
    }
  });
});

describe('P waves that no QRS follows', () => {
  it.each(['av-block-second-lengthening', 'av-block-second-fixed'] as const)(
    'are told apart in %s',
    (name) => {
      for (const species of ['dog', 'cat'] as const) {
        const { truth, waves } = mark(RHYTHMS[name]({ species, duration: 40, seed: 431 }));
        const told = truth.lonePWaves.filter((span) => waves.loneP.some((p) => isAt(p, span)));
        expect(truth.lonePWaves.length).toBeGreaterThan(10);
        expect(told.length).toBeGreaterThanOrEqual(0.95 * truth.lonePWaves.length);
        // The P of a last beat that is cut off leads to nothing on the strip.
        expect(waves.loneP.length - told.length).toBeLessThanOrEqual(1);
      }
    },
  );

  it('in complete block belong to no QRS, and most of those that can be seen are found', () => {
    for (const seed of [441, 442]) {
      const plan = RHYTHMS['av-block-third']({ species: 'dog', duration: 40, seed });
      const { truth, waves } = mark(plan, { seed });
      expect(waves.beats.filter(({ p }) => p)).toEqual([]);
      const told = truth.lonePWaves.filter((span) => waves.loneP.some((p) => isAt(p, span)));
      // A quarter of them lie under QRS or T.
      expect(told.length).toBeGreaterThan(0.6 * truth.lonePWaves.length);
      expect(waves.loneP.length - told.length).toBeLessThanOrEqual(1);
    }
  });
});

describe('stretches that cannot be read', () => {
  const silenced = (samples: Float64Array): Float64Array => {
    const out = samples.slice();
    out.fill(Number.NaN, 5000, 7500);
    return out;
  };

  it('have no waves, and the beats around them keep theirs', () => {
    const plan = RHYTHMS.sinus({ species: 'dog', duration: 40, seed: 451 });
    const { truth, waves } = mark(plan, { change: silenced });
    waves.beats.forEach(({ time, p, qrs, t }, k) => {
      if (time > 10 && time < 15) expect([p, qrs, t]).toEqual([null, null, null]);
      if (time > 1 && (time < 9 || time > 16) && time < 39)
        expect(isAt(p, truth.beats[k]!.p)).toBe(true);
    });
  });

  it('are read on another lead', () => {
    const plan = RHYTHMS.sinus({ species: 'dog', duration: 40, seed: 452 });
    const [first, second] = channels(plan, { leads: ['II', 'aVF'] });
    const holed = { ...first!, samples: silenced(first!.samples) };
    const beats = truthOf(plan).beats.map(({ time }) => ({ time: time as never, lead: 1 }));
    const inHole = findWaves([holed, second!], beats).beats.filter(
      ({ time }) => time > 10.5 && time < 14.5,
    );
    expect(inHole.length).toBeGreaterThan(3);
    for (const { p, qrs } of inHole) {
      expect(qrs).not.toBeNull();
      expect(p).not.toBeNull();
    }
  });
});

describe('no beats', () => {
  it.each(['asystole', 'ventricular-fibrillation'] as const)('in %s, no waves', (name) => {
    const plan = RHYTHMS[name]({ species: 'dog', duration: 20, seed: 461 });
    expect(mark(plan).waves).toEqual({ beats: [], loneP: [] });
  });

  it('and no leads, no waves', () => {
    expect(findWaves([], [{ time: 1 as never, lead: 0 }]).beats).toEqual([
      { time: 1, p: null, qrs: null, t: null },
    ]);
  });
});

describe('with beats as detected', () => {
  const levels: readonly NoiseLevel[] = ['mild', 'moderate'];

  it.each(levels)('sinus strips keep their P at %s noise', (level) => {
    for (const species of ['dog', 'cat'] as const) {
      const plan = RHYTHMS.sinus({ species, duration: 30, seed: 471 });
      expect(shareWithP(plan, level)).toBeGreaterThan(0.95);
    }
  });

  it.each(levels)('fibrillation has none at %s noise', (level) => {
    for (const species of ['dog', 'cat'] as const) {
      const plan = RHYTHMS['atrial-fibrillation']({ species, duration: 30, seed: 472 });
      expect(shareWithP(plan, level)).toBe(0);
    }
  });

  function shareWithP(plan: BeatPlan, level: NoiseLevel): number {
    const leads = channels(plan, { level });
    const readable = leads.map((lead) => ({
      ...lead,
      samples: readableSamples(lead, readableSpans(lead)),
    }));
    const { beats } = findWaves(readable, detectBeats(leads));
    expect(beats.length).toBeGreaterThan(30);
    return beats.filter(({ p }) => p).length / beats.length;
  }
});
