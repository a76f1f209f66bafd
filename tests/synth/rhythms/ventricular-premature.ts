import type { BeatPlan, PlannedBeat } from '../beat-plan.js';
import { ventricularBeat } from '../templates.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusBeat, sinusFirings } from './sinus.js';

/** How many ventricular beats in a row stand in place of the sinus beat at `index`; 0 for none. */
type Ectopy = (index: number) => number;

/** Single ventricular premature complexes, one in place of every tenth sinus beat or at given ones. */
export function ventricularSingles(setting: Setting, at?: readonly number[]): BeatPlan {
  return withEctopy(setting, (i) => ((at ? at.includes(i) : i % 10 === 6) ? 1 : 0));
}

/** Two in a row. */
export function ventricularPairs(setting: Setting): BeatPlan {
  return withEctopy(setting, (i) => (i % 12 === 6 ? 2 : 0));
}

/** Every second beat. */
export function ventricularBigeminy(setting: Setting): BeatPlan {
  return withEctopy(setting, (i) => (i % 2 === 1 ? 1 : 0));
}

/** Every third beat. */
export function ventricularTrigeminy(setting: Setting): BeatPlan {
  return withEctopy(setting, (i) => (i % 3 === 2 ? 1 : 0));
}

/** Short runs of five. */
export function ventricularRuns(setting: Setting): BeatPlan {
  return withEctopy(setting, (i) => (i % 20 === 8 ? 5 : 0));
}

/** The first of a run comes this part of a cycle after the sinus beat before it. */
const COUPLING = 0.58;
/** Later ones of a run follow at this part of a cycle. */
const IN_RUN = 0.5;

/**
 * A sinus node that keeps its time whatever the ventricles do: a run stands in place of the sinus
 * beats that it overtakes, so the pause after it is fully compensatory. The overtaken sinus beats'
 * P waves are left out (in life they hide in the wide complex).
 */
function withEctopy(setting: Setting, ectopy: Ectopy): BeatPlan {
  const stage = stageOf(setting);
  const fired = sinusFirings(stage, setting.rate ?? stage.template.restingRate);
  const beats: PlannedBeat[] = [];
  let silentUntil = Number.NEGATIVE_INFINITY;
  for (const [i, firing] of fired.entries()) {
    if (firing.time < silentUntil) continue;
    const before = fired[i - 1];
    const length = before ? ectopy(i) : 0;
    if (before && length > 0) {
      const first = before.time + COUPLING * firing.rr * (1 + 0.02 * stage.random.gaussian());
      for (let k = 0; k < length; k += 1) {
        const time = first + k * IN_RUN * firing.rr;
        if (time < stage.duration) beats.push(ventricularBeat(stage.template, time));
        silentUntil = time + firing.rr;
      }
    } else {
      beats.push(sinusBeat(stage, firing));
    }
  }
  return planOn(stage, { beats });
}
