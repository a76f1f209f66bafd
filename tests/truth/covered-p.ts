import type { BeatPlan } from '../synth/beat-plan.js';
import { truthOf } from '../synth/truth.js';

/** Nearer to the summit of T than this share of it, to either side, a P is a part of T to the eye. */
const OF_T = 0.5;
/** Of all P waves, where every second one is covered. */
const NEARLY_HALF = 0.4;

/**
 * Whether about each second P of a plan, conducted or not, lies on the summit of a T or touches a QRS, so that the eye
 * finds one P to a beat.
 */
export function coversEachSecondP(plan: BeatPlan): boolean {
  const { beats, lonePWaves } = truthOf(plan);
  const waves = [...beats.flatMap(({ p }) => p ?? []), ...lonePWaves];
  const covered = waves.filter(({ onset, peak, end }) =>
    beats.some(
      ({ qrs, t }) =>
        (onset < qrs.end && end > qrs.onset) ||
        (t !== null && Math.abs(peak - t.peak) < (OF_T * (t.end - t.onset)) / 2),
    ),
  );
  return covered.length > NEARLY_HALF * waves.length;
}
