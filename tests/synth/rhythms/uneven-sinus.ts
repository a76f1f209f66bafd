import type { BeatPlan } from '../beat-plan.js';
import { firings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusBeat } from './sinus.js';

/**
 * Sinus rhythm that quickens and slows by about a quarter, slower than anybody breathes and with a
 * flutter of its own from beat to beat: irregular, and not for the breath's sake.
 */
export function unevenSinus(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const { random } = stage;
  const mean = setting.rate ?? stage.template.restingRate;
  const swing = random.between(0.18, 0.28);
  const slow = random.between(0.04, 0.09);
  const phase = random.between(0, 2 * Math.PI);
  const fired = firings({
    rateAt: (time) => mean * (1 + swing * Math.sin(2 * Math.PI * slow * time + phase)),
    jitter: 0.06,
    from: 0,
    to: stage.duration,
    random,
  });
  return planOn(stage, { beats: fired.map((firing) => sinusBeat(stage, firing)) });
}
