import { describe, expect, it } from 'vitest';
import { analyseStrip } from '../../../../src/signal/analyse.js';
import { clockedP } from '../../../../src/signal/rhythm/evidence/clocked-p.js';
import { NORMAL } from '../../../../src/signal/rhythm/rhythm.js';
import type { BeatPlan, PlannedBeat } from '../../../synth/beat-plan.js';
import { randomFrom } from '../../../synth/random.js';
import { planOn, type Setting, stageOf } from '../../../synth/rhythms/setting.js';
import { sinus } from '../../../synth/rhythms/sinus.js';
import { conductedBeat, pWave } from '../../../synth/templates.js';
import { patientOf, renderedLeads } from '../strips.js';

function analysed(plan: BeatPlan, seed: number) {
  const leads = renderedLeads(plan, seed, []);
  const found = analyseStrip(leads, { patient: patientOf(plan.species), breath: {} });
  const beats = found.beats.map((beat) => ({ ...beat, confidence: 1 }));
  return { ...found, clocked: clockedP(beats, leads).half };
}

/**
 * Atria that fire by themselves, every second time to no effect, on T; each of their intervals varies by `jitter` (a share
 * of it, standard deviation) apart from the others, so that each beat comes after two of them.
 */
function fasterAtria(setting: Setting, jitter: number): BeatPlan {
  const stage = stageOf(setting);
  const { template } = stage;
  const random = randomFrom(setting.seed + 77);
  const rr = 60 / setting.rate!;
  const untimed = conductedBeat(template, 0, rr, { pr: 0 });
  const wanted = untimed.P!.centre + rr / 2 - untimed.T!.centre;
  const pr = Math.min(1.6 * template.pr.most, Math.max(0.8 * template.pr.least, wanted));
  const beat = conductedBeat(template, 0, rr, { kind: 'supraventricular', pr });
  const beats: PlannedBeat[] = [];
  const lonePWaves: BeatPlan['lonePWaves'][number][] = [];
  const interval = () => (rr / 2) * (1 + jitter * random.gaussian());
  for (let time = 0.3; time < stage.duration; time += interval()) {
    beats.push({ ...beat, time: time - beat.P!.centre });
    time += interval();
    lonePWaves.push({ time, wave: pWave(template, 1, 0) });
  }
  return planOn(stage, { beats: beats.filter(({ time }) => time < stage.duration), lonePWaves });
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
          fasterAtria({ species, rate, seed, duration: 20 }, jitter),
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
