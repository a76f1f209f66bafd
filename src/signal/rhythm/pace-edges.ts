import { differences, mostOf } from '../filter/spread.js';
import type { MarkedBeat, Patient } from '../marked-beat.js';
import { rateRange } from './rate-ranges.js';

// The constants of this file are choices of the method: not clinical numbers.

/** So many intervals on end, each shorter than a sinus node goes, are a rhythm of their own. */
const ON_END = 7;
/** So many beats beside them show another pace. */
const BESIDE = 4;
/** Each of their intervals is at least so many times as long: a sinus node speeds up and slows down, and does not jump. */
const JUMP = 1.3;

/**
 * Between which beats a pace that no sinus node keeps begins or ends at a stroke, beside a slower one: times, s, ascending.
 * A re-entry begins with one beat and ends with one. The first and the last interval, from the one pace to the other,
 * belong to neither.
 */
export function paceEdges(beats: readonly MarkedBeat[], patient: Patient): number[] {
  const range = rateRange(patient);
  if (!range || beats.length < ON_END + BESIDE + 1) return [];
  const gaps = differences(beats.map(({ time }) => time));
  const shortest = 60 / range.sinusCeiling;
  const between = (i: number): number => (beats[i]!.time + beats[i + 1]!.time) / 2;
  const edges: number[] = [];
  for (let from = 0; from < gaps.length; from += 1) {
    let end = from;
    while (end < gaps.length && gaps[end]! < shortest) end += 1;
    if (end - from >= ON_END) {
      const before = gaps.slice(Math.max(0, from - BESIDE), Math.max(0, from - 1));
      if (isJump(before, gaps.slice(from, from + ON_END))) edges.push(between(from - 1));
      const after = gaps.slice(end + 1, end + BESIDE);
      if (isJump(after, gaps.slice(end - ON_END, end))) edges.push(between(end));
    }
    from = end;
  }
  return edges;
}

/** Whether all of the slower intervals are longer by far than each of the fast ones beside them. */
const isJump = (slow: readonly number[], fast: readonly number[]): boolean =>
  slow.length >= BESIDE - 1 && slow.every((gap) => gap >= JUMP * mostOf(fast));
