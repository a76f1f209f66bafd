import type { BeatPlan } from '../beat-plan.js';
import { ventricularBeat } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { ripplesIn } from './ripples.js';
import { planOn, type Setting, stageOf } from './setting.js';

/** Wide, fast and regular throughout. */
export function ventricularTachycardia(setting: Setting): BeatPlan {
  return wideThroughout(setting, { dog: 200, cat: 260, rabbit: 300 }[setting.species], -1);
}

/** Wide and slow: the ventricles beat for want of anything faster. */
export function idioventricular(setting: Setting): BeatPlan {
  return wideThroughout(setting, { dog: 46, cat: 85, rabbit: 100 }[setting.species], 1);
}

/** No beats: coarse chaotic waves. */
export function ventricularFibrillation(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const rms = 0.22 * stage.template.r.amplitude;
  return planOn(stage, { ripples: ripplesIn({ rms, from: 4.5, to: 8.5 }, stage.random) });
}

/** No beats and no waves. */
export function asystole(setting: Setting): BeatPlan {
  return planOn(stageOf(setting), {});
}

function wideThroughout(setting: Setting, ownRate: number, direction: 1 | -1): BeatPlan {
  const stage = stageOf(setting);
  const fired = steadyFirings(stage, setting.rate ?? ownRate, 0.01);
  return planOn(stage, {
    beats: fired.map(({ time }) => ventricularBeat(stage.template, time, direction)),
  });
}
