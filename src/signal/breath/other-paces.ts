import type { BreathClock } from './breath-clock.js';
import { followShare } from './follow.js';
import type { Intervals } from './intervals.js';

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
  let strongest = 0;
  for (let pace = SLOWEST; pace <= fastest; pace += step) {
    if (Math.abs(pace - 1) * breaths < 0.5) continue;
    const stretched = followShare(swing, (i) => pace * clock.turnsAt(middles[i] as number));
    const steady = followShare(swing, (i) => (pace * (middles[i] as number)) / clock.period);
    strongest = Math.max(strongest, stretched, steady);
  }
  return strongest;
}
