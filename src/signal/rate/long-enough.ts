import { type Seconds, seconds } from '../../units/brands.js';
import type { BeatRun } from './beat-runs.js';
import { meanRate } from './beat-to-beat.js';
import { countAt, extremes, type Place } from './short-window.js';

/** Share of the strip's mean rate within which every window's rate must lie; our own choice. */
const tolerance = 0.05;

/**
 * How long one must count for the rate not to depend on when. `strip too short`: none of the windows
 * that could be tried was long enough. `fewer than two beats`: there is no rate to compare with.
 */
export type LongEnough =
  | { readonly window: Seconds; readonly because: null }
  | { readonly window: null; readonly because: 'strip too short' | 'fewer than two beats' };

/**
 * The shortest whole-second window for which every window on the strip shows a rate within 5 % of
 * the mean rate of the whole strip. A window must fit at least twice into one readable run; else
 * the strip would only be compared with itself.
 */
export function longEnough(runs: readonly BeatRun[]): LongEnough {
  const mean = meanRate(runs);
  if (mean === null) return { window: null, because: 'fewer than two beats' };
  const longestRun = runs.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  // Where a window failed the next longer one mostly fails as well: these few places are tried first.
  const failed: Place[] = [];
  for (let length = 1; 2 * length <= longestRun; length++) {
    const window = seconds(length);
    const isSteady = (count: number | null) =>
      count === null ||
      ((count * 60) / window >= (1 - tolerance) * mean - 1e-9 &&
        (count * 60) / window <= (1 + tolerance) * mean + 1e-9);
    if (failed.some((place) => !isSteady(countAt(place, window)))) continue;
    const found = extremes(runs, window);
    const unsteady = found
      ? [found.fewest, found.most].filter(({ count }) => !isSteady(count))
      : [];
    if (found && unsteady.length === 0) return { window, because: null };
    failed.push(...unsteady.map(({ place }) => place));
  }
  return { window: null, because: 'strip too short' };
}
