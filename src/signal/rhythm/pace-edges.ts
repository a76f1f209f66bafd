import { differences, median } from '../filter/spread.js';
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
      const usual = median(gaps.slice(from, end));
      const isSlower = (some: readonly number[]): boolean =>
        some.length >= BESIDE - 1 && some.every((gap) => gap >= JUMP * usual);
      if (isSlower(gaps.slice(Math.max(0, from - BESIDE), Math.max(0, from - 1)))) {
        edges.push(between(from - 1));
      }
      if (isSlower(gaps.slice(end + 1, end + BESIDE))) edges.push(between(end));
    }
    from = end;
  }
  return edges;
}
