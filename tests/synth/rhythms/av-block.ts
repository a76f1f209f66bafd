import type { BeatPlan, LonePWave, PlannedBeat } from '../beat-plan.js';
import { conductedBeat, pWave, type SpeciesTemplate, ventricularBeat } from '../templates.js';
import { type Firing, steadyFirings } from './pacing.js';
import { planOn, type Setting, type Stage, stageOf } from './setting.js';
import { sinusFirings } from './sinus.js';

/** How long P takes to reach the ventricles (P onset to QRS onset, s), or null where it never does. */
type Conduction = (index: number) => number | null;

/** First degree: every P is followed, too late (dog 0.18 s, cat 0.13 s). */
export function avBlockFirst(setting: Setting): BeatPlan {
  const late = { dog: 0.18, cat: 0.13, rabbit: 0.1 }[setting.species];
  return blocked(setting, () => late);
}

/** Second degree with a lengthening PR: of every five P waves the fifth is not followed. */
export function avBlockLengthening(setting: Setting): BeatPlan {
  const { atRest } = stageOf(setting).template.pr;
  return blocked(setting, (i) => (i % 5 === 4 ? null : atRest * (1 + 0.3 * (i % 5))));
}

/** Second degree with a fixed PR: of every three P waves the third is not followed. */
export function avBlockFixed(setting: Setting): BeatPlan {
  const { atRest } = stageOf(setting).template.pr;
  return blocked(setting, (i) => (i % 3 === 2 ? null : atRest));
}

/** Third degree: P waves march at the sinus rate, a slow wide escape keeps its own time. */
export function avBlockThird(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const atrial = { dog: 120, cat: 190, rabbit: 220 }[setting.species];
  const escapeRate = setting.rate ?? { dog: 42, cat: 85, rabbit: 100 }[setting.species];
  const lonePWaves = sinusFirings(stage, atrial).map(({ time }) => loneP(stage.template, time));
  const fired = steadyFirings(stage, escapeRate, 0.01);
  return planOn(stage, {
    lonePWaves,
    beats: fired.map(({ time }) => ventricularBeat(stage.template, time)),
  });
}

function blocked(setting: Setting, conduction: Conduction): BeatPlan {
  const stage = stageOf(setting);
  const beats: PlannedBeat[] = [];
  const lonePWaves: LonePWave[] = [];
  const fired = sinusFirings(stage, setting.rate ?? stage.template.restingRate);
  for (const [i, firing] of fired.entries()) {
    const pr = conduction(i);
    if (pr === null) lonePWaves.push(loneP(stage.template, firing.time));
    else beats.push(beatAfterP(stage, firing, pr));
  }
  return planOn(stage, { beats, lonePWaves });
}

/** A beat placed by its P wave, centred at the firing, rather than by its R wave. */
function beatAfterP({ template }: Stage, { time, rr }: Firing, pr: number): PlannedBeat {
  const draft = conductedBeat(template, 0, rr, { pr });
  return { ...draft, time: time - (draft.P?.centre ?? 0) };
}

function loneP(template: SpeciesTemplate, time: number): LonePWave {
  return { time, wave: pWave(template, 1, 0) };
}
