import { describe, expect, it } from 'vitest';
import { shapeFamilies } from '../../../src/signal/beats/families.js';
import { kindsOf } from '../../../src/signal/beats/kinds.js';
import type { BeatKind } from '../../../src/signal/marked-beat.js';
import type { BeatKind as PlannedKind } from '../../synth/beat-plan.js';
import { RHYTHMS, type RhythmName } from '../../synth/rhythms/index.js';
import { truthOf } from '../../synth/truth.js';
import { CARELESS, stripFromTruth } from '../rhythm/strips.js';

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
