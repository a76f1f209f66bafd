import { differences, median } from '../filter/spread.js';
import type { BeatWaves } from '../marked-beat.js';

/** Earlier than this share of the local interval is premature. Common practice: clearly early. */
export const EARLY = 0.85;
/** Intervals between beats of the heart's own family around each beat, s. */
export function usualIntervals(
  beats: readonly BeatWaves[],
  isOwn: readonly boolean[],
): { local: number[]; usual: number; off: number } {
  const known = knownIntervals(beats.map(timeOf), isOwn);
  const local = localIntervals(known, beats.length);
  return {
    local,
    usual: median(known.gaps),
    off: median(shareOff(known, local)),
  };
}

/** Lengths, s, and the places of the beats that end them, ascending. */
interface Intervals {
  readonly ends: number[];
  readonly gaps: number[];
}

const timeOf = ({ time }: BeatWaves): number => time;

/** Those between beats of the own family, where there are any; else all. */
function knownIntervals(times: readonly number[], isOwn: readonly boolean[]): Intervals {
  const own: Intervals = { ends: [], gaps: [] };
  const around: Intervals = { ends: [], gaps: [] };
  for (let i = 1; i < times.length; i += 1) addInterval(i, times, isOwn, own, around);
  if (own.gaps.length >= 3) return own;
  return around.gaps.length >= 3 ? around : allIntervals(times);
}

function addInterval(
  i: number,
  times: readonly number[],
  isOwn: readonly boolean[],
  own: Intervals,
  around: Intervals,
): void {
  if (!isOwn[i]) return;
  if (isOwn[i - 1]) {
    own.ends.push(i);
    own.gaps.push(times[i]! - times[i - 1]!);
  } else if (i > 1 && isOwn[i - 2]) {
    // Own, foreign, own: with a full pause the two gaps together are two cycles.
    around.ends.push(i);
    around.gaps.push((times[i]! - times[i - 2]!) / 2);
  }
}

function allIntervals(times: readonly number[]): Intervals {
  const gaps = differences(times);
  return { ends: gaps.map(placeAfter), gaps };
}

const placeAfter = (_: number, i: number): number => i + 1;

/** How far each interval is off what is usual around it, as a share of that. */
function shareOff({ ends, gaps }: Intervals, local: readonly number[]): number[] {
  const off: number[] = [];
  for (let k = 0; k < gaps.length; k += 1) {
    const usual = local[ends[k]!]!;
    off.push(Math.abs(gaps[k]! - usual) / usual);
  }
  return off;
}

/** So many of the nearest intervals say what is usual around a beat. Own choice, not a clinical number. */
const NEAREST = 8;

/** The middle one of the intervals nearest to each of `count` beats, of equally near ones the earlier. */
function localIntervals(known: Intervals, count: number): number[] {
  const nearest = new Float64Array(Math.min(NEAREST, known.gaps.length));
  const out: number[] = [];
  let from = 0;
  for (let i = 0; i < count; i += 1) {
    from = firstOfNearest(i, from, known.ends);
    out.push(middleFrom(from, known.gaps, nearest));
  }
  return out;
}

/** The nearest lie side by side, and move on with the beat, from those of the beat before. */
function firstOfNearest(i: number, before: number, ends: readonly number[]): number {
  let from = before;
  while (from + NEAREST < ends.length && ends[from + NEAREST]! - i < i - ends[from]!) from += 1;
  return from;
}

/** The middle one of the values from a place on, which are laid into `row`. */
function middleFrom(from: number, values: readonly number[], row: Float64Array): number {
  for (let k = 0; k < row.length; k += 1) row[k] = values[from + k]!;
  return median(row);
}

/** R to R before each beat as a share of the interval usual around it; NaN for the first. */
export function pacesOf(beats: readonly BeatWaves[], local: readonly number[]): number[] {
  const paces: number[] = [];
  for (let i = 0; i < beats.length; i += 1) {
    paces.push(i === 0 ? Number.NaN : (beats[i]!.time - beats[i - 1]!.time) / local[i]!);
  }
  return paces;
}

/** The short intervals of a pair of beats differ from each other by no more than this share, as those of a sinus node that the breath leads do. Own choice, not a clinical number. */
const EQUAL_PAIRS = 0.08;

/**
 * Whether each beat ends the short one of two intervals that take turns, as early beats after each beat do: shorter by far
 * than those before and after it, and as long as the next short ones but one on at least two sides.
 */
export function endsShortOfPairs(beats: readonly Pick<BeatWaves, 'time'>[]): boolean[] {
  const gap = (i: number): number =>
    i > 0 && i < beats.length ? beats[i]!.time - beats[i - 1]!.time : Number.NaN;
  const isShort = (i: number): boolean =>
    gap(i) < EARLY * gap(i - 1) || (Number.isNaN(gap(i - 1)) && gap(i) < EARLY * gap(i + 1))
      ? !(gap(i) >= EARLY * gap(i + 1))
      : false;
  const isLike = (i: number, other: number): boolean =>
    isShort(other) && Math.abs(gap(other) / gap(i) - 1) <= EQUAL_PAIRS;
  return beats.map((_, i) => {
    if (!isShort(i)) return false;
    const like = [i - 4, i - 2, i + 2, i + 4].filter((other) => isLike(i, other));
    return like.length >= 3 || (like.length === 2 && (i < 4 || i + 4 >= beats.length));
  });
}
