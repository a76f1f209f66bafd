import type { BeatPlan, Breath } from '../beat-plan.js';
import { firings } from './pacing.js';
import { planOn, type Setting, stageOf } from './setting.js';
import { sinusBeat } from './sinus.js';

/**
 * Sinus rhythm that follows the ventilator: beats crowd in and just after inspiration and leave long
 * gaps in late expiration. P, QRS and T stay normal; P is a little taller where beats crowd.
 * `setting.rate` is the mean over a breath.
 */
export function breathLinkedSinus(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const mean = setting.rate ?? stage.template.restingRate;
  const slowest = 0.56 * mean;
  const push = (time: number): number => crowding(stage.breaths, time, setting);
  const fired = firings({
    rateAt: (time) => slowest + ((mean - slowest) / CROWDING_MEAN) * push(time),
    jitter: 0.012,
    from: 0,
    to: stage.duration,
    random: stage.random,
  });
  return planOn(stage, {
    beats: fired.map((firing) =>
      sinusBeat(stage, firing, { pFactor: 0.88 + 0.24 * push(firing.time) }),
    ),
  });
}

/** Of the hill: 0 a plain sine, more a narrower crowd. */
const SHARPNESS = 1.3;

/** 0 to 1 over a breath, 1 shortly after inspiration is over. */
function crowding(breaths: readonly Breath[], time: number, setting: Setting): number {
  const period = 60 / (setting.breathsPerMinute ?? 12);
  const first = breaths[0];
  const crest = first ? first.time + first.inspiration : 0;
  return bump((time - crest) / period);
}

/** A hill around whole numbers of turns, height 1. */
function bump(turns: number): number {
  return Math.exp(SHARPNESS * (Math.cos(2 * Math.PI * turns) - 1));
}

const CROWDING_MEAN =
  Array.from({ length: 360 }, (_, i) => bump(i / 360)).reduce((sum, value) => sum + value, 0) / 360;
