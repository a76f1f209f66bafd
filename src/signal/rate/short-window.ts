import { type Bpm, bpm, type Seconds, seconds } from '../../units/brands.js';
import type { BeatRun } from './beat-runs.js';

/** What counting over a window would have shown, depending on when it was counted. */
export interface WindowSpread {
  readonly window: Seconds;
  readonly low: Bpm;
  readonly high: Bpm;
}

/** A beat this near to the edge of a window lies on it: less than rounding of times can tell; in s. */
const onEdge = 1e-9;

/**
 * The lowest and the highest rate that someone who counts the beats in `window` seconds and
 * multiplies by 60 / window could have found anywhere on the strip. A window holds the beats from
 * its beginning (included) to its end (excluded), and lies in one readable run. Null where no run
 * is that long.
 */
export function shortWindow(
  runs: readonly BeatRun[],
  window: Seconds = seconds(6),
): WindowSpread | null {
  let fewest = Number.POSITIVE_INFINITY;
  let most = -1;
  for (const run of runs) {
    if (run.to - run.from < window - onEdge) continue;
    // The count changes only where a beat enters or leaves. It is highest in a window that begins
    // with a beat, lowest in one that ends just before a beat, unless that window does not fit.
    const last = run.to - window;
    const starts = run.beats.filter((beat) => beat <= last);
    const ends = run.beats.map((beat) => beat - window).filter((start) => start >= run.from);
    for (const count of countsFrom([...starts, last], run.beats, window)) {
      most = Math.max(most, count);
    }
    for (const count of countsFrom([...ends, last], run.beats, window)) {
      fewest = Math.min(fewest, count);
    }
  }
  if (most < 0) return null;
  return { window, low: bpm((fewest * 60) / window), high: bpm((most * 60) / window) };
}

/** Beats in each window; both `starts` and `beats` ascend. */
function countsFrom(starts: readonly number[], beats: readonly number[], window: number): number[] {
  let first = 0;
  let end = 0;
  return starts.map((start) => {
    while (first < beats.length && beats[first]! < start - onEdge) first++;
    while (end < beats.length && beats[end]! < start + window - onEdge) end++;
    return end - first;
  });
}
