import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { clockedP } from '../../../../src/signal/rhythm/evidence/clocked-p.js';
import { NORMAL } from '../../../../src/signal/rhythm/rhythm.js';
import type { BeatPlan } from '../../../synth/beat-plan.js';
import { unevenAtriaTwoToOne } from '../../../synth/rhythms/atrial-two-to-one.js';
import { sinus } from '../../../synth/rhythms/sinus.js';
import { patientOf, renderedLeads } from '../strips.js';

function analysed(plan: BeatPlan, seed: number) {
  const leads = renderedLeads(plan, seed, []);
  const found = analyseStrip(leads, { patient: patientOf(plan.species), breath: {} });
  const beats = found.beats.map((beat) => ({ ...beat, confidence: 1 }));
  return { ...found, clocked: clockedP(beats, leads).half };
}

describe.each([
  ['dog', [80, 110, 140]],
  ['cat', [130, 160, 190]],
] as const)('what keeps the time of the atria between the P waves of a %s', (species, rates) => {
  it.each(rates)('is nothing where T is tall and the sinus node leads, %d beats/min', (rate) => {
    for (const seed of [1, 2]) {
      for (const tToR of [0.6, 1.1]) {
        const plan = sinus({ species, rate, seed, duration: 20 }, { tToR });
        expect(analysed(plan, seed).clocked).toBeLessThan(0.25);
      }
    }
  });

  it.each(rates)('is a P where each second one is conducted, %d beats/min', (rate) => {
    for (const seed of [1, 2]) {
      for (const jitter of [0, 0.003, 0.01, 0.03]) {
        const { clocked, rhythms } = analysed(
          unevenAtriaTwoToOne({ species, rate, seed, duration: 20 }, jitter),
          seed,
        );
        // Where the intervals vary too little to tell (NaN) it is not ruled out.
        expect(clocked < 0.45, `${jitter}`).toBe(false);
        const normal = rhythms.filter(({ name }) => NORMAL.some((each) => each === name));
        expect(normal, `${jitter}`).toEqual([]);
      }
    }
  });
});
