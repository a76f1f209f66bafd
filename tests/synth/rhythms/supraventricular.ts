import type { BeatPlan } from '../beat-plan.js';
import { conductedBeat } from '../templates.js';
import { steadyFirings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusBeat, sinusFirings } from './sinus.js';

/**
 * Sinus rhythm with single early narrow beats, each with a P of another height. The early beat
 * resets the sinus node, so the pause after it is about one ordinary cycle.
 */
export function supraventricularPremature(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  // Each early beat pulls the rest forward, so plan past the end to fill it.
  const longer = { ...stage, duration: 1.3 * stage.duration };
  const fired = sinusFirings(longer, setting.rate ?? stage.template.restingRate);
  let pulledForward = 0;
  const beats = fired.map((firing, i) => {
    const early = i % 9 === 5;
    if (early) pulledForward += 0.35 * firing.rr;
    const time = firing.time - pulledForward;
    return early
      ? conductedBeat(stage.template, time, 0.65 * firing.rr, {
          kind: 'supraventricular',
          pFactor: 0.6,
        })
      : sinusBeat(stage, { time, rr: firing.rr });
  });
  return planOn(stage, { beats: beats.filter(({ time }) => time < stage.duration) });
}

/** Regular, fast and narrow throughout, its P waves hidden. */
export function supraventricularTachycardia(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const rate = setting.rate ?? { dog: 250, cat: 310, rabbit: 360 }[setting.species];
  const fired = steadyFirings(stage, rate, 0.004);
  return planOn(stage, {
    beats: fired.map(({ time, rr }) =>
      conductedBeat(stage.template, time, rr, { kind: 'supraventricular', withP: false }),
    ),
  });
}
