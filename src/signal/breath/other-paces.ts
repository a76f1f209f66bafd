import type { BreathClock } from './breath-clock.js';
import { followShare } from './follow.js';
import type { Intervals } from './intervals.js';
import { Phases } from './phases.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Paces from this share of the breath's own ... */
const SLOWEST = 0.4;
/** ... to this many times it are tried. */
const FASTEST = 2.2;

/**
 * The largest share of the swing of the intervals that goes with some other pace than the breath's,
 * 0 to 1. Where it is larger than the breath's own share, what follows the breath may be the spill of
 * a rhythm of the heart's own. Tried are the breath's clock run faster and slower, and steady clocks,
 * no nearer than half of what a strip of so many `breaths` can tell apart.
 */
export function strongestOtherPace(
  { n, rr, swing, middles }: Intervals,
  clock: BreathClock,
  breaths: number,
): number {
  const perBreath = (clock.period * n) / rr.reduce((sum, value) => sum + value, 0);
  // Above half the beats' own pace, the beats cannot tell one pace from another.
  const fastest = Math.min(FASTEST, perBreath / 2);
  const step = 0.25 / breaths;
  const turns = middles.map((middle) => clock.turnsAt(middle));
  const evenTurns = middles.map((middle) => middle / clock.period);
  let strongest = 0;
  for (const run of [turns, evenTurns]) {
    const phases = Phases.of(run.map((turn) => SLOWEST * turn));
    const further = Phases.of(run.map((turn) => step * turn));
    for (let pace = SLOWEST; pace <= fastest; pace += step) {
      if (Math.abs(pace - 1) * breaths >= 0.5) {
        strongest = Math.max(strongest, followShare(swing, phases));
      }
      phases.advance(further);
    }
  }
  return strongest;
}
