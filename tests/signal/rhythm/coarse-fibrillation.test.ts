import { expect, it } from 'vitest';
import { analyseStrip } from '../../../src/signal/analyse.js';
import { atrialFibrillation } from '../../synth/rhythms/atrial-fibrillation.js';
import { patientOf, renderedLeads } from './strips.js';

const SECONDS = 30;

/** Waves of the atria so many times as high as usual, which bend the QRS and cover T. */
it.each([
  ['dog', 4],
  ['cat', 3],
] as const)(
  'atrial fibrillation of a %s is named, coarse as it is: %i times',
  (species, factor) => {
    let named = 0;
    const seeds = [1, 2, 3, 4, 5, 6];
    for (const seed of seeds) {
      const plan = atrialFibrillation({ species, duration: SECONDS, seed });
      const ripples = plan.ripples.map((one) => ({ ...one, amplitude: factor * one.amplitude }));
      const { rhythms } = analyseStrip(renderedLeads({ ...plan, ripples }, seed, []), {
        patient: patientOf(species),
        breath: {},
      });
      for (const { name, from, to } of rhythms) {
        expect(['atrial fibrillation', 'cannot be told'], `seed ${seed}`).toContain(name);
        if (name === 'atrial fibrillation') named += to - from;
      }
    }
    expect(named / (SECONDS * seeds.length)).toBeGreaterThan(0.95);
  },
);
