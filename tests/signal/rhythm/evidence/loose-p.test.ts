import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { looseP } from '../../../../src/signal/rhythm/evidence/loose-p.js';
import { NORMAL } from '../../../../src/signal/rhythm/rhythm.js';
import type { BeatPlan } from '../../../synth/beat-plan.js';
import { unevenAtriaTwoToOne } from '../../../synth/rhythms/atrial-two-to-one.js';
import { sinus } from '../../../synth/rhythms/sinus.js';
import { unevenSinus } from '../../../synth/rhythms/uneven-sinus.js';
import { patientOf, renderedLeads } from '../strips.js';

function analysed(plan: BeatPlan, seed: number, leadCount = 1) {
  const leads = renderedLeads(plan, seed, []).slice(0, leadCount);
  const { beats, rhythms } = analyseStrip(leads, { patient: patientOf(plan.species), breath: {} });
  return {
    normal: rhythms.filter(({ name }) => NORMAL.some((each) => each === name)),
    isAllNormal: rhythms.every(({ name }) => NORMAL.some((each) => each === name)),
    loose: () =>
      looseP(
        beats.map((beat) => ({ ...beat, confidence: 1 })),
        leads,
      ),
  };
}

describe.each([
  ['dog', [95, 110, 125, 140, 155]],
  ['cat', [145, 160, 175, 190, 205]],
] as const)('a P of a %s that comes in each cycle at a time of its own', (species, rates) => {
  // 8 %, and to either side of it.
  it.each([0.06, 0.08, 0.1])(
    'keeps every normal name off atria of which each second beat is conducted, intervals uneven by %d',
    (jitter) => {
      for (const rate of rates) {
        for (const seed of [1, 2, 3, 4]) {
          const plan = unevenAtriaTwoToOne({ species, rate, seed, duration: 20 }, jitter);
          for (const leads of [1, 3]) {
            const { normal } = analysed(plan, seed, leads);
            expect(normal, `${rate} beats/min, seed ${seed}, ${leads} leads`).toEqual([]);
          }
        }
      }
    },
  );

  it('is none where the sinus node fires unevenly, which keeps its name', () => {
    for (const rate of rates.slice(0, 3)) {
      for (const seed of [1, 2]) {
        const setting = { species, rate, seed, duration: 20, breathsPerMinute: 13 };
        const { loose, isAllNormal } = analysed(unevenSinus(setting), seed);
        expect(loose(), `${rate} beats/min, seed ${seed}`).toBeLessThan(0.2);
        expect(isAllNormal, `${rate} beats/min, seed ${seed}`).toBe(true);
      }
    }
  });

  it('is none in a tall T', () => {
    for (const rate of rates.slice(0, 3)) {
      for (const seed of [1, 2]) {
        const plan = sinus({ species, rate, seed, duration: 20 }, { tToR: 1 });
        const { loose, isAllNormal } = analysed(plan, seed);
        expect(loose(), `${rate} beats/min, seed ${seed}`).toBeLessThan(0.1);
        expect(isAllNormal, `${rate} beats/min, seed ${seed}`).toBe(true);
      }
    }
  });
});
