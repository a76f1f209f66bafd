import { type Bpm, bpm, type Seconds, seconds } from '../../units/brands.js';
import { differences, leastOf, mostOf } from '../filter/spread.js';
import type { BeatRun } from './beat-runs.js';

/** The time from one R to the next, both in the same readable run. */
export interface RrInterval {
  /** Of the second of the two beats. */
  readonly time: Seconds;
  readonly duration: Seconds;
  /** 60 over the duration. */
  readonly rate: Bpm;
}

/** Every RR interval that was seen from end to end, in order of time. */
export function beatToBeat(runs: readonly BeatRun[]): RrInterval[] {
  const intervals: RrInterval[] = [];
  for (const { beats } of runs) {
    for (let i = 1; i < beats.length; i += 1) intervals.push(intervalTo(beats[i]!, beats[i - 1]!));
  }
  return intervals;
}

function intervalTo(time: Seconds, before: Seconds): RrInterval {
  const duration = seconds(time - before);
  return { time, duration, rate: bpm(60 / duration) };
}

/**
 * Beats a minute over the whole strip: 60 · intervals / the time that they fill, which for one run is
 * 60 · (n - 1) / (last - first). Unreadable stretches count neither as time nor as beats. Null
 * without an interval.
 */
export function meanRate(runs: readonly BeatRun[]): Bpm | null {
  let intervals = 0;
  let filled = 0;
  for (const { beats } of runs) {
    if (beats.length < 2) continue;
    intervals += beats.length - 1;
    filled += beats.at(-1)! - beats[0]!;
  }
  return intervals > 0 ? bpm((60 * intervals) / filled) : null;
}

/** The shortest and the longest RR in s; null without an interval. */
export function extremeIntervals(
  runs: readonly BeatRun[],
): { readonly shortest: Seconds; readonly longest: Seconds } | null {
  let shortest = Number.POSITIVE_INFINITY;
  let longest = 0;
  for (const { beats } of runs) {
    const intervals = differences(beats);
    shortest = Math.min(shortest, leastOf(intervals));
    longest = Math.max(longest, mostOf(intervals));
  }
  return longest > 0 ? { shortest: seconds(shortest), longest: seconds(longest) } : null;
}
