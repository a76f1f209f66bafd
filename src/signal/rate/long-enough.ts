import { type Bpm, type Seconds, seconds } from '../../units/brands.js';
import type { BeatRun } from './beat-runs.js';
import { meanRate } from './beat-to-beat.js';
import { countAt, extremes, type Place } from './short-window.js';

/** Share of the strip's mean rate within which every window's rate must lie; our own choice. */
const tolerance = 0.05;

/**
 * How long one must count for the rate not to depend on when. `window` is the shortest time that suffices, `steadyFrom` the
 * one from which every longer one does too: a longer count may end within a pause that the shorter one holds whole.
 * `strip too short`: none of the windows that could be tried was long enough. `fewer than two beats`: there is no rate to
 * compare with.
 */
export type LongEnough =
  | { readonly window: Seconds; readonly steadyFrom: Seconds | null; readonly because: null }
  | {
      readonly window: null;
      readonly steadyFrom: null;
      readonly because: 'strip too short' | 'fewer than two beats';
    };

/**
 * The shortest whole-second window for which every window on the strip shows a rate within 5 % of
 * the mean rate of the whole strip, and the shortest from which on every longer one does so. A window must fit at least
 * twice into one readable run; else the strip would only be compared with itself.
 */
export function longEnough(runs: readonly BeatRun[]): LongEnough {
  const mean = meanRate(runs);
  if (mean === null) return withheld('fewer than two beats');
  const longestRun = runs.reduce((most, { from, to }) => Math.max(most, to - from), 0);
  const windows = new Windows(runs, mean);
  let first: number | null = null;
  let since: number | null = null;
  for (let length = 1; length <= longestRun; length++) {
    if (first === null && 2 * length > longestRun) return withheld('strip too short');
    if (windows.areSteady(length, first)) {
      first ??= length;
      since ??= length;
      // So many on end, each with the first one behind it, make up every longer one.
      if (length - since + 1 >= first) break;
    } else {
      since = null;
    }
  }
  if (first === null) return withheld('strip too short');
  const isTold = since !== null && 2 * since <= longestRun;
  return {
    window: seconds(first),
    steadyFrom: isTold ? seconds(since as number) : null,
    because: null,
  };
}

const withheld = (because: 'strip too short' | 'fewer than two beats'): LongEnough => ({
  window: null,
  steadyFrom: null,
  because,
});

/** The windows of a strip, asked by their length in whole seconds, each length once and the shorter before the longer. */
class Windows {
  /** Where a window failed the next longer one mostly fails as well: these few places are tried first. */
  readonly #failed: Place[] = [];
  readonly #steady = new Set<number>();

  constructor(
    private readonly runs: readonly BeatRun[],
    private readonly mean: Bpm,
  ) {}

  /**
   * Whether every window of a length shows the mean rate. Two windows on end make one that does if both do, so a length
   * that is the `first` steady one and another needs no look at the beats.
   */
  areSteady(length: number, first: number | null): boolean {
    const isSum = first !== null && this.#steady.has(length - first);
    const is = isSum || this.#areSeenSteady(seconds(length));
    if (is) this.#steady.add(length);
    return is;
  }

  #areSeenSteady(window: Seconds): boolean {
    if (this.#failed.some((place) => !this.#isSteady(countAt(place, window), window))) return false;
    const found = extremes(this.runs, window);
    if (!found) return false;
    const unsteady = [found.fewest, found.most].filter(
      ({ count }) => !this.#isSteady(count, window),
    );
    this.#failed.push(...unsteady.map(({ place }) => place));
    return unsteady.length === 0;
  }

  #isSteady(count: number | null, window: Seconds): boolean {
    return (
      count === null ||
      ((count * 60) / window >= (1 - tolerance) * this.mean - 1e-9 &&
        (count * 60) / window <= (1 + tolerance) * this.mean + 1e-9)
    );
  }
}
