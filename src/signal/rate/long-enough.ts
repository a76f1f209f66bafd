import { type Seconds, seconds } from '../../units/brands.js';
import type { BeatRun } from './beat-runs.js';
import { meanRate } from './beat-to-beat.js';
import { shortWindow } from './short-window.js';

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
  for (let window = 1; 2 * window <= longestRun; window++) {
    const spread = shortWindow(runs, seconds(window));
    const isSteady =
      spread !== null &&
      spread.low >= (1 - tolerance) * mean - 1e-9 &&
      spread.high <= (1 + tolerance) * mean + 1e-9;
    if (isSteady) return { window: seconds(window), because: null };
  }
  return { window: null, because: 'strip too short' };
}
