import type { BeatPlan, LonePWave, PlannedBeat } from '../beat-plan.js';
import { conductedBeat, pWave, ventricularBeat } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusFirings } from './sinus.js';

/** Of every `of` P waves one is conducted, at a fixed PR: 2 to 1, 3 to 1. `rate` is that of the atria. */
export function conductedOneOf(of: number, setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const { template } = stage;
  const atrial = setting.rate ?? { dog: 130, cat: 190, rabbit: 220 }[setting.species];
  const beats: PlannedBeat[] = [];
  const lonePWaves: LonePWave[] = [];
  for (const [i, { time, rr }] of sinusFirings(stage, atrial).entries()) {
    const draft = conductedBeat(template, 0, rr * of, { pr: template.pr.atRest });
    if (i % of === 0) beats.push({ ...draft, time: time - (draft.P?.centre ?? 0) });
    else lonePWaves.push({ time, wave: pWave(template, 1, 0) });
  }
  return planOn(stage, { beats, lonePWaves });
}

/** P waves at `rate`; an escape from the junction (narrow) or the ventricles (wide) keeps its own time. */
export function completeBlock(
  setting: Setting,
  lower: { readonly rate: number; readonly from: 'junction' | 'ventricle' },
): BeatPlan {
  const stage = stageOf(setting);
  const { template } = stage;
  const atrial = setting.rate ?? { dog: 120, cat: 190, rabbit: 220 }[setting.species];
  return planOn(stage, {
    lonePWaves: sinusFirings(stage, atrial).map(({ time }) => ({
      time,
      wave: pWave(template, 1, 0),
    })),
    beats: steadyFirings(stage, lower.rate, 0.01).map(({ time, rr }) =>
      lower.from === 'ventricle'
        ? ventricularBeat(template, time)
        : conductedBeat(template, time, rr, { kind: 'junctional', withP: false }),
    ),
  });
}
