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
  const { beats } = run;
  for (let k = 0; k < beats.length; k++)
    counter.countAt(k, beginning(run, side, beats[k]!, window));
  counter.countAt(beats.length, beginningOfLast(run, window));
  return { count: counter.count, place: { run, side, beat: beats[counter.place] ?? null } };
}

/** Counts in windows that come in order of time, and keeps the extreme one. */
class WindowCounter {
  count = Number.NaN;
  /** Of the beat at which the extreme one lies; beyond all for the window at the end of the run. */
  place = -1;
  #first = 0;
  #end = 0;

  constructor(
    private readonly run: BeatRun,
    private readonly window: Seconds,
    private readonly side: Place['side'],
  ) {}

  /** @param start where the window at a place begins, s; NaN where it does not fit there */
  countAt(place: number, start: number): void {
    const { window, side } = this;
    if (Number.isNaN(start)) return;
    const { beats } = this.run;
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
    this.place = place;
  }
}

/** Beats in a window at a place; null where it does not fit there. */
export function countAt(place: Place, window: Seconds): number | null {
  const { run, side, beat } = place;
  const start = beat === null ? beginningOfLast(run, window) : beginning(run, side, beat, window);
  if (Number.isNaN(start)) return null;
  const { beats } = run;
  const first = countBefore(beats, (time) => time >= start - onEdge);
  return countBefore(beats, (time) => time >= start + window - onEdge) - first;
}

/** Where the window at a beat begins, s; NaN where it does not fit into the run. */
function beginning(run: BeatRun, side: Place['side'], beat: Seconds, window: Seconds): number {
  if (side === 'from') return beat <= run.to - window ? beat : Number.NaN;
  return beat - window >= run.from ? beat - window : Number.NaN;
}

/** Where the one at the end of the run begins, likewise. */
function beginningOfLast(run: BeatRun, window: Seconds): number {
  const last = run.to - window;
  return last >= run.from - onEdge ? last : Number.NaN;
}
