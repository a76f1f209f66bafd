import type { BeatPlan } from '../beat-plan.js';
import { conductedBeat } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';

/** Silent atria: no P wave anywhere, a slow regular narrow escape, a tall T. */
export function atrialStandstill(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const rate = setting.rate ?? { dog: 50, cat: 95, rabbit: 120 }[setting.species];
  const fired = steadyFirings(stage, rate, 0.008);
  return planOn(stage, {
    beats: fired.map(({ time, rr }) =>
      conductedBeat(stage.template, time, rr, { kind: 'junctional', withP: false, tToR: 0.45 }),
    ),
  });
}
