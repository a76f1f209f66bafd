import { countBefore } from '../filter/ascending.js';
import { usualPeriod } from './breaths.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Breathing as a clock that counts breaths: whole numbers are starts of a breath. */
export interface BreathClock {
  /** s; the ordinary length of a breath. */
  readonly period: number;
  /** Breaths since the first at a time in s, with the part of the present one after the point. */
  readonly turnsAt: (time: number) => number;
}

/** A span of the strip, s. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** A pause this many times longer than the usual breath may hide a breath that was not seen. */
const LONGEST_BREATH = 1.75;

/** A clock that only knows its pace; where a breath starts is not known. */
export function paceClock(period: number): BreathClock {
  return { period, turnsAt: (time) => time / period };
}

/** A clock through known starts of breaths, going evenly between them and at the usual pace outside. */
export function clockThrough(starts: readonly number[]): BreathClock {
  const period = usualPeriod(starts);
  const last = starts.length - 1;
  // Questions come in nearly ascending order, so the place found last is the best place to start.
  let at = 0;
  const turnsAt = (time: number): number => {
    while (at < last - 1 && (starts[at + 1] as number) <= time) at += 1;
    while (at > 0 && (starts[at] as number) > time) at -= 1;
    const start = starts[at] as number;
    const next = starts[at + 1] as number;
    if (time < start) return at + (time - start) / period;
    if (time >= next) return at + 1 + (time - next) / period;
    return at + (time - start) / (next - start);
  };
  return { period, turnsAt };
}

/** Spans of whole breaths, from a start to a later one, broken where a breath may have been missed. */
export function spansOfWholeBreaths(starts: readonly number[]): Span[] {
  const longest = LONGEST_BREATH * usualPeriod(starts);
  const spans: { from: number; to: number }[] = [];
  for (let i = 1; i < starts.length; i += 1) {
    const from = starts[i - 1] as number;
    const to = starts[i] as number;
    const before = spans.at(-1);
    if (to - from > longest) continue;
    if (before && before.to === from) before.to = to;
    else spans.push({ from, to });
  }
  return spans;
}

/** Breaths that lie wholly inside one of the spans. */
export function wholeBreaths(starts: readonly number[], spans: readonly Span[]): number {
  const longest = LONGEST_BREATH * usualPeriod(starts);
  return starts.slice(1).filter((to, i) => {
    const from = starts[i] as number;
    return to - from <= longest && isWithin(spans, from, to);
  }).length;
}

/** Whether one of the spans, which ascend, holds all from `from` to `to`. */
export function isWithin(spans: readonly Span[], from: number, to: number): boolean {
  const span = spans[countBefore(spans, (each) => each.to >= to)];
  return span !== undefined && from >= span.from;
}

/** What two ascending lists of spans have in common. */
export function inBoth(one: readonly Span[], other: readonly Span[]): Span[] {
  return one.flatMap((a) => {
    const first = countBefore(other, (b) => b.to > a.from);
    return other
      .slice(
        first,
        countBefore(other, (b) => b.from >= a.to),
      )
      .map((b) => ({ from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) }));
  });
}
