import type { BeatPlan } from '../beat-plan.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusBeat, sinusFirings } from './sinus.js';

/** Of every so many sinus cycles, one stretches to a pause. */
const BETWEEN_PAUSES = 12;

/** Sinus rhythm with pauses of 2.4 to 3.2 cycles: nothing at all in them, not even a P wave. */
export function sinusPause(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const rate = setting.rate ?? stage.template.restingRate;
  let shift = 0;
  const fired = sinusFirings(stage, rate).map((firing, i) => {
    const extra = i % BETWEEN_PAUSES === 6 ? firing.rr * stage.random.between(1.4, 2.2) : 0;
    shift += extra;
    return { time: firing.time + shift, rr: firing.rr };
  });
  return planOn(stage, {
    beats: fired
      .filter(({ time }) => time < stage.duration)
      .map((firing) => sinusBeat(stage, firing)),
  });
}
