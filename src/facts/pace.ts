import { differences } from '../signal/filter/spread.js';
import type { BeatRun } from '../signal/rate/beat-runs.js';
import { type Bpm, bpm } from '../units/brands.js';

/** How fast the heart went over stretches that a display averages over, beats/min. */
export interface Pace {
  readonly slowest: Bpm;
  readonly fastest: Bpm;
}

/**
 * s: over so long rates are taken here. A breath lasts less, so the swing of a sinus rhythm that follows it averages out,
 * and displays average over about as long. From memory, unverified.
 */
const AVERAGED = 10;

/**
 * The slowest and the fastest mean rate over any intervals on end that fill about ten seconds, a run that is shorter taken
 * whole. Rates are of intervals, not of beats in a window, so they do not depend on where a beat falls.
 */
export function paceOf(runs: readonly BeatRun[]): Pace {
  let [slowest, fastest] = [Number.POSITIVE_INFINITY, 0];
  for (const { beats } of runs) {
    for (const rate of ratesOn(differences(beats))) {
      slowest = Math.min(slowest, rate);
      fastest = Math.max(fastest, rate);
    }
  }
  return { slowest: bpm(slowest), fastest: bpm(fastest) };
}

/** Mean rates over intervals on end, each as few as fill the time, or all that there are. */
function ratesOn(intervals: readonly number[]): number[] {
  const rates: number[] = [];
  let [first, filled] = [0, 0];
  intervals.forEach((interval, last) => {
    filled += interval;
    while (filled - intervals[first]! >= AVERAGED) filled -= intervals[first++]!;
    if (filled >= AVERAGED) rates.push((60 * (last + 1 - first)) / filled);
  });
  return rates.length > 0 || intervals.length === 0 ? rates : [(60 * intervals.length) / filled];
}
