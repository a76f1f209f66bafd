import { type Bpm, bpm, type Seconds, seconds } from '../../units/brands.js';
import { countBefore } from '../filter/ascending.js';
import type { BeatRun } from './beat-runs.js';

/** What counting over a window would have shown, depending on when it was counted. */
export interface WindowSpread {
  readonly window: Seconds;
  readonly low: Bpm;
  readonly high: Bpm;
}

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
  const found = extremes(runs, window);
  return (
    found && {
      window,
      low: bpm((found.fewest.count * 60) / window),
      high: bpm((found.most.count * 60) / window),
    }
  );
}

/** Where a window may lie that holds more, or fewer, beats than any near it. */
export interface Place {
  readonly run: BeatRun;
  /** It begins with a beat, or ends just before one. */
  readonly side: 'from' | 'to';
  /** Null for the window at the end of the run. */
  readonly beat: Seconds | null;
}

interface Count {
  readonly count: number;
  readonly place: Place;
}

/**
 * The windows that hold the fewest and the most beats; null where no run is that long. The count
 * changes only where a beat enters or leaves. It is highest in a window that begins with a beat, lowest
 * in one that ends just before a beat, unless that window does not fit.
 */
export function extremes(
  runs: readonly BeatRun[],
  window: Seconds,
): { readonly fewest: Count; readonly most: Count } | null {
  const counted = runs
    .filter((run) => run.to - run.from >= window - onEdge)
    .map((run) => ({
      fewest: extreme(run, window, 'to'),
      most: extreme(run, window, 'from'),
    }));
  if (counted.length === 0) return null;
  return counted.reduce((one, other) => ({
    fewest: other.fewest.count < one.fewest.count ? other.fewest : one.fewest,
    most: other.most.count > one.most.count ? other.most : one.most,
  }));
}

/** A beat this near to the edge of a window lies on it: less than rounding of times can tell; in s. */
const onEdge = 1e-9;

/** The window with the fewest beats of those that end just before a beat (`to`), or with the most of those that begin with one. */
function extreme(run: BeatRun, window: Seconds, side: Place['side']): Count {
  const counter = new WindowCounter(run, window, side);
  for (const beat of run.beats) counter.countAt(beat);
  counter.countAt(null);
  return { count: counter.count, place: { run, side, beat: counter.beat } };
}

/** Counts in windows that come in order of time, and keeps the extreme one. */
class WindowCounter {
  count = Number.NaN;
  beat: Seconds | null = null;
  #first = 0;
  #end = 0;

  constructor(
    private readonly run: BeatRun,
    private readonly window: Seconds,
    private readonly side: Place['side'],
  ) {}

  countAt(beat: Seconds | null): void {
    const { run, window, side } = this;
    const start = beginning(run, side, beat, window);
    if (start === null) return;
    const { beats } = run;
    let first = this.#first;
    let end = this.#end;
    while (first < beats.length && beats[first]! < start - onEdge) first++;
    while (end < beats.length && beats[end]! < start + window - onEdge) end++;
    this.#first = first;
    this.#end = end;
    const count = end - first;
    const isBeyond = side === 'to' ? count < this.count : count > this.count;
    if (!isBeyond && !Number.isNaN(this.count)) return;
    this.count = count;
    this.beat = beat;
  }
}

/** Beats in a window at a place; null where it does not fit there. */
export function countAt(place: Place, window: Seconds): number | null {
  const start = beginning(place.run, place.side, place.beat, window);
  if (start === null) return null;
  const { beats } = place.run;
  const first = countBefore(beats, (beat) => beat >= start - onEdge);
  return countBefore(beats, (beat) => beat >= start + window - onEdge) - first;
}

/** In s; null where the window does not fit into the run. */
function beginning(
  run: BeatRun,
  side: Place['side'],
  beat: Seconds | null,
  window: Seconds,
): number | null {
  const last = run.to - window;
  if (beat === null) return last >= run.from - onEdge ? last : null;
  if (side === 'from') return beat <= last ? beat : null;
  return beat - window >= run.from ? beat - window : null;
}
