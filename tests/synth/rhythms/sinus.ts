import type { BeatPlan, PlannedBeat } from '../beat-plan.js';
import { conductedBeat } from '../templates.js';
import { type Firing, firings } from './pacing.js';
import { planOn, type Setting, type Stage, stageOf } from './setting.js';

export interface SinusOptions {
  /** Rate at the end, beats/min; the rate moves there on a straight line. Defaults to no change. */
  readonly endRate?: number;
  /** Standard deviation of an interval as a fraction of it. Defaults to 1.2 %. */
  readonly jitter?: number;
  /** T height over R height in place of the template's. */
  readonly tToR?: number;
  /** Factor on the Q, R and S heights. */
  readonly qrsFactor?: number;
  /** Factor on the P height. */
  readonly pFactor?: number;
}

/** Regular sinus rhythm, steady or moving from one rate to another. */
export function sinus(setting: Setting, options: SinusOptions = {}): BeatPlan {
  const stage = stageOf(setting);
  const fired = sinusFirings(stage, setting.rate ?? stage.template.restingRate, options);
  return planOn(stage, { beats: fired.map((firing) => sinusBeat(stage, firing, options)) });
}

/** Slow sinus rhythm: under the species' adult range. */
export function sinusBradycardia(setting: Setting): BeatPlan {
  return sinus({ rate: { dog: 45, cat: 95, rabbit: 120 }[setting.species], ...setting });
}

/** Fast sinus rhythm: over the adult range, every wave still told apart. */
export function sinusTachycardia(setting: Setting): BeatPlan {
  return sinus({ rate: { dog: 185, cat: 250, rabbit: 280 }[setting.species], ...setting });
}

/** Sinus rhythm whose T wave stands nearly as tall as the R wave. */
export function tallT(setting: Setting): BeatPlan {
  return sinus(setting, { tToR: 0.9 });
}

/** Sinus node firings over the whole stage. */
export function sinusFirings(
  stage: Stage,
  rate: number,
  { endRate = rate, jitter = 0.012 }: SinusOptions = {},
): Firing[] {
  return firings({
    rateAt: (time) => rate + ((endRate - rate) * time) / stage.duration,
    jitter,
    from: 0,
    to: stage.duration,
    random: stage.random,
  });
}

/** A sinus beat with a little life in its height. */
export function sinusBeat(
  { template, random }: Stage,
  { time, rr }: Firing,
  { tToR, qrsFactor = 1, pFactor = 1 }: SinusOptions = {},
): PlannedBeat {
  return conductedBeat(template, time, rr, {
    pFactor: pFactor * (1 + 0.03 * random.gaussian()),
    qrsFactor: qrsFactor * (1 + 0.015 * random.gaussian()),
    ...(tToR === undefined ? {} : { tToR }),
  });
}
