import type { BeatPlan, LonePWave, PlannedBeat } from '../../synth/beat-plan.js';
import { steadyFirings } from '../../synth/rhythms/pacing.js';
import { planOn, type Setting, stageOf } from '../../synth/rhythms/setting.js';
import { sinusFirings } from '../../synth/rhythms/sinus.js';
import { conductedBeat, pWave } from '../../synth/templates.js';

/** Of every `of` P waves one is followed, at a fixed PR: 2 to 1, 3 to 1, 4 to 1. */
export function blockedExceptEvery(of: number, setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const atrial = setting.rate ?? { dog: 130, cat: 190, rabbit: 220 }[setting.species];
  const beats: PlannedBeat[] = [];
  const lonePWaves: LonePWave[] = [];
  for (const [i, { time, rr }] of sinusFirings(stage, atrial).entries()) {
    const draft = conductedBeat(stage.template, 0, rr * of, { pr: stage.template.pr.atRest });
    if (i % of === 0) beats.push({ ...draft, time: time - (draft.P?.centre ?? 0) });
    else lonePWaves.push({ time, wave: pWave(stage.template, 1, 0) });
  }
  return planOn(stage, { beats, lonePWaves });
}

/** Third-degree block with a narrow escape from the junction. */
export function thirdDegreeNarrow(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const atrial = { dog: 120, cat: 190, rabbit: 220 }[setting.species];
  const lower = { dog: 50, cat: 90, rabbit: 110 }[setting.species];
  return planOn(stage, {
    lonePWaves: sinusFirings(stage, atrial).map(({ time }) => ({
      time,
      wave: pWave(stage.template, 1, 0),
    })),
    beats: steadyFirings(stage, lower, 0.01).map(({ time, rr }) =>
      conductedBeat(stage.template, time, rr, { kind: 'junctional', withP: false }),
    ),
  });
}

/** P waves alone: the ventricles stand still. */
export function ventricularStandstill(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  return planOn(stage, {
    lonePWaves: sinusFirings(stage, 100).map(({ time }) => ({
      time,
      wave: pWave(stage.template, 1, 0),
    })),
  });
}
