import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { shownBesideQrs } from '../../../../src/signal/rhythm/evidence/beside-qrs.js';
import type { BeatPlan, Wave } from '../../../synth/beat-plan.js';
import { steadyFirings } from '../../../synth/rhythms/pacing.js';
import { planOn, stageOf } from '../../../synth/rhythms/setting.js';
import { conductedBeat, pWave } from '../../../synth/templates.js';
import { patientOf, renderedLeads } from '../strips.js';

/** Even beats, each with `wave` so many s after R, at the rate at which a P halfway would peak there. */
function withWave(
  species: 'dog' | 'cat',
  seed: number,
  after: number,
  wave: (p: Wave) => Wave,
): BeatPlan {
  const pr = { dog: 0.13, cat: 0.09 }[species];
  const stage = stageOf({ species, seed, duration: 20 });
  const { template } = stage;
  const ahead = -(conductedBeat(template, 0, 0.4, { pr }).P?.centre ?? 0);
  const beats = steadyFirings(stage, 60 / (2 * (ahead + after)), 0.004).map(({ time, rr }) =>
    conductedBeat(template, time, rr, { kind: 'supraventricular', pr }),
  );
  const p = pWave(template, 1, 0);
  return planOn(stage, {
    beats,
    lonePWaves: beats.map(({ time }) => ({ time: time + after, wave: wave(p) })),
  });
}

function analysed(plan: BeatPlan, seed: number) {
  const leads = renderedLeads(plan, seed, []);
  const { beats, rhythms } = analyseStrip(leads, { patient: patientOf(plan.species), breath: {} });
  return {
    shown: shownBesideQrs(
      beats.map((beat) => ({ ...beat, confidence: 1 })),
      leads,
    ),
    names: rhythms.map(({ name }) => name),
  };
}

const TACHYCARDIA = 'supraventricular tachycardia';

describe.each([
  ['dog', 0.054],
  ['cat', 0.044],
] as const)('a wave halfway between the P waves of a %s, right behind QRS', (species, after) => {
  it('is shown where it is of the shape of P and parted from QRS', () => {
    for (const seed of [1, 2, 3]) {
      const { shown, names } = analysed(
        withWave(species, seed, after, (p) => p),
        seed,
      );
      expect(shown, `seed ${seed}`).toBeGreaterThan(0.6);
      expect(names, `seed ${seed}`).toEqual([TACHYCARDIA]);
    }
  });

  // A notch or slur that leans on the end of QRS is seen in healthy dogs (J wave; common practice).
  it('is not where it leans on QRS, nor where it is none', () => {
    for (const seed of [1, 2, 3]) {
      const leaning = withWave(species, seed, after, (p) => ({ ...p, centre: -0.02 }));
      const flat = withWave(species, seed, after, (p) => ({ ...p, amplitude: 0 }));
      for (const plan of [leaning, flat]) {
        const { shown, names } = analysed(plan, seed);
        expect(shown > 0.6, `seed ${seed}`).toBe(false);
        expect(names, `seed ${seed}`).not.toContain(TACHYCARDIA);
      }
    }
  });
});
