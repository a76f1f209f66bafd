import { describe, expect, it } from 'vitest';
import { shapeFamilies } from '../../../src/signal/beats/families.js';
import { kindsOf } from '../../../src/signal/beats/kinds.js';
import type { BeatKind } from '../../../src/signal/marked-beat.js';
import type { Channel } from '../../../src/signal/waveform.js';
import { findWaves } from '../../../src/signal/waves/find-waves.js';
import { millivolt, seconds } from '../../../src/units/brands.js';
import type { BeatKind as PlannedKind } from '../../synth/beat-plan.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { type Bell, syntheticLead } from '../../tools/synthetic-strip.js';
import { CARELESS, patientOf, stripFromTruth } from '../rhythm/strips.js';

/** What a planned beat may be called; `unclassified` is always allowed and counted apart. */
const MAY_BE: Readonly<Record<PlannedKind, readonly BeatKind[]>> = {
  sinus: ['sinus'],
  supraventricular: ['supraventricular premature'],
  junctional: ['junctional escape'],
  ventricular: ['ventricular premature', 'ventricular', 'ventricular escape'],
};

const SEEDS = [9811, 9812, 9813];

/** Shares of the beats that were called rightly, and that were called something else, over seeds. */
function called(name: RhythmName, species: 'dog' | 'cat'): { right: number; wrong: number } {
  let count = 0;
  let right = 0;
  let wrong = 0;
  for (const seed of SEEDS) {
    const plan = RHYTHMS[name]({ species, duration: 30, seed });
    const { leads, beats, loneP, patient } = stripFromTruth(plan, seed, { misread: CARELESS });
    const truth = truthOf(plan).beats;
    for (const { time, kind } of kindsOf(beats, shapeFamilies(leads, beats), loneP, patient)) {
      const planned = truth.find((beat) => Math.abs(beat.time - time) < 0.03)!;
      count += 1;
      if (MAY_BE[planned.kind].includes(kind)) right += 1;
      else if (kind !== 'unclassified') wrong += 1;
    }
  }
  return { right: right / count, wrong: wrong / count };
}

describe.each(['dog', 'cat'] as const)(
  'beats of a %s, their waves misread now and then',
  (species) => {
    it.each([
      'sinus',
      'breath-linked-sinus',
      'supraventricular-premature',
      'ventricular-singles',
      'ventricular-pairs',
      'ventricular-bigeminy',
      'ventricular-trigeminy',
      'ventricular-runs',
      'ventricular-tachycardia',
      'idioventricular',
      'av-block-third',
    ] as const)('%s: nine in ten bear their kind, one in fifty at most another', (name) => {
      const { right, wrong } = called(name, species);
      expect(right).toBeGreaterThan(0.9);
      expect(wrong).toBeLessThan(0.02);
    });

    it('calls no beat of atrial fibrillation a sinus beat', () => {
      for (const seed of SEEDS) {
        const plan = RHYTHMS['atrial-fibrillation']({ species, duration: 30, seed });
        const { leads, beats, loneP, patient } = stripFromTruth(plan, seed, { misread: CARELESS });
        const kinds = kindsOf(beats, shapeFamilies(leads, beats), loneP, patient);
        expect(kinds.filter(({ kind }) => kind === 'sinus')).toEqual([]);
      }
    });
  },
);

it('a row of wide beats of one shape was not bent by jolts, though noise before each is taken for its P', () => {
  const narrow: readonly Bell[] = [
    { at: -0.08, height: 0.2, width: 0.01 },
    { at: 0, height: 1.5, width: 0.008 },
    { at: 0.15, height: 0.25, width: 0.026 },
  ];
  const wide: readonly Bell[] = [
    { at: 0, height: 2, width: 0.02 },
    { at: 0.035, height: 1, width: 0.015 },
    { at: 0.16, height: -0.6, width: 0.03 },
  ];
  const own = Array.from({ length: 24 }, (_, i) => 0.5 + 0.5 * i);
  const times = [...own, ...Array.from({ length: 10 }, (_, i) => 12.46 + 0.46 * i)];
  const isOwn = (i: number): boolean => i < own.length;
  const lead = syntheticLead({
    rate: 500,
    duration: 18,
    beats: times,
    waves: (i) => (isOwn(i) ? narrow : wide),
    noise: 0.004,
  });
  const { leads, beats } = wavesOf(lead, times);
  const marked = beats.map((beat) => ({
    ...beat,
    p: {
      onset: seconds(beat.time - 0.1),
      peak: seconds(beat.time - 0.08),
      end: seconds(beat.time - 0.06),
      height: millivolt(0.2),
      confidence: 0.5,
    },
  }));
  const shapes = shapeFamilies(leads, marked);
  const off = { likeOwn: 0.4, between: null, changes: false, isCalm: false };
  const noisy = { ...shapes, off: (i: number) => (isOwn(i) ? null : off) };
  const kinds = kindsOf(marked, noisy, [], patientOf('dog'));
  expect(kinds.slice(own.length).filter(({ kind }) => kind === 'unclassified')).toEqual([]);
});

function wavesOf(lead: Channel, times: readonly number[]) {
  const beats = times.map((time) => ({ time: seconds(time), lead: 0 }));
  return { leads: [lead], ...findWaves([lead], beats) };
}
