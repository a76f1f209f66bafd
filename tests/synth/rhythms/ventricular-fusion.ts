import type { BeatPlan, PlannedBeat, Wave } from '../beat-plan.js';
import { conductedBeat, ventricularBeat } from '../templates.js';
import type { Firing } from './pacing.js';
import { planOn, type Setting, type Stage, stageOf } from './setting.js';
import { sinusBeat, sinusFirings } from './sinus.js';

/** Sinus rhythm in which each ninth beat is half made by a ventricle: on time, after a P, of a shape between the two. */
export function ventricularFusion(setting: Setting): BeatPlan {
  const stage = stageOf(setting);
  const fired = sinusFirings(stage, setting.rate ?? stage.template.restingRate);
  return planOn(stage, {
    beats: fired.map((firing, i) =>
      i % 9 === 5 ? fusionBeat(stage, firing) : sinusBeat(stage, firing),
    ),
  });
}

function fusionBeat({ template, random }: Stage, { time, rr }: Firing): PlannedBeat {
  const own = conductedBeat(template, time, rr);
  const other = ventricularBeat(template, time, -1);
  const share = random.between(0.45, 0.7);
  return {
    ...own,
    kind: 'ventricular',
    R: between(own.R, other.R, share),
    S: own.S && other.S && between(own.S, other.S, share),
    T: own.T && other.T && between(own.T, other.T, share),
  };
}

function between(a: Wave, b: Wave, share: number): Wave {
  const mix = (x: number, y: number): number => x + share * (y - x);
  return {
    // Never so near to nothing that the beat has no R.
    amplitude: mix(a.amplitude, b.amplitude) || 0.1 * a.amplitude,
    centre: mix(a.centre, b.centre),
    rise: mix(a.rise, b.rise),
    fall: mix(a.fall, b.fall),
  };
}
