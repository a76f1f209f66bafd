import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { hiddenP, mostHidden } from '../../../../src/signal/rhythm/evidence/hidden-p.js';
import { beginningOfP } from '../../../../src/signal/rhythm/evidence/rise-of-p.js';
import type { BeatPlan } from '../../../synth/beat-plan.js';
import {
  atrialFlutterTwoToOne,
  atrialTachycardiaTwoToOne,
} from '../../../synth/rhythms/atrial-two-to-one.js';
import { sinus } from '../../../synth/rhythms/sinus.js';
import { patientOf, renderedLeads } from '../strips.js';

function seen(plan: BeatPlan, seed: number) {
  const leads = renderedLeads(plan, seed, []);
  const patient = patientOf(plan.species);
  const { beats } = analyseStrip(leads, { patient, breath: {} });
  const cycles = beats.slice(1).map((beat, i) => ({ before: beats[i]!, beat }));
  const marked = beats.map((beat) => ({ ...beat, confidence: 1 }));
  return {
    hidden: mostHidden(
      hiddenP(
        cycles.map(({ before, beat }) => ({
          before: { ...before, confidence: 1 },
          beat: { ...beat, confidence: 1 },
        })),
        marked,
        leads,
        patient,
      ),
    ),
    rise: beginningOfP(marked, leads).rise,
  };
}

const plan = (species: 'dog' | 'cat', rate: number, seed: number) => ({
  species,
  rate,
  seed,
  duration: 20,
});

describe.each([
  ['dog', [80, 110, 140]],
  ['cat', [120, 150, 180, 210]],
] as const)('another P of a %s, halfway between the P waves', (species, rates) => {
  it.each(rates)('is not seen in a sinus rhythm of %d beats/min, though T stands there', (rate) => {
    for (const seed of [1, 2]) {
      expect(seen(sinus(plan(species, rate, seed)), seed).hidden).toBeLessThan(0.6);
    }
  });

  it.each(rates.slice(1))(
    'is seen in T where each second one is conducted, %d beats/min',
    (rate) => {
      for (const seed of [1, 2]) {
        const { hidden } = seen(atrialTachycardiaTwoToOne(plan(species, rate, seed), 'in T'), seed);
        // Where nothing can be seen (NaN) it is not ruled out either.
        expect(hidden <= 0.6).toBe(false);
      }
    },
  );
});

describe('the rise of P', () => {
  it('is short in a sinus rhythm, long in a wave of fluttering atria', () => {
    for (const seed of [1, 2, 3]) {
      // The template's P: half of the height to the peak takes 1.18 standard deviations, 0.0097 s (dog).
      expect(seen(sinus(plan('dog', 100, seed)), seed).rise).toBeCloseTo(0.0097, 2);
      const { rise } = seen(atrialFlutterTwoToOne(plan('dog', 150, seed)), seed);
      expect(rise <= 0.02).toBe(false);
    }
  });
});
