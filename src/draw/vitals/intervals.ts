import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';

/** The time from beat to beat over a strip, with the breaths under it; s. */
export interface BeatIntervals {
  readonly intervals: readonly { readonly time: number; readonly length: number }[];
  readonly breathAt: readonly number[];
  readonly duration: number;
  readonly strings: { readonly interval: string; readonly breath: string };
  /** mm */
  readonly width: number;
}

/** Longest stretch that is drawn, s: enough breaths to see a pattern repeat. Not a clinical number. */
const SHOWN_SECONDS = 40;
/** s, from one number under the drawing to the next. */
const SECONDS_APART = 5;
const left = 12;
const plotTop = 6;
const plotHeight = 30;

/**
 * A dot for each interval at the beat that ends it, and a dashed line where each breath begins, from the first interval
 * on; null where there is none.
 */
export function beatIntervals(drawn: BeatIntervals): Drawing | null {
  const [first] = drawn.intervals;
  if (!first) return null;
  const from = Math.floor(Math.max(0, first.time - first.length) / SECONDS_APART) * SECONDS_APART;
  const to = Math.min(drawn.duration, from + SHOWN_SECONDS);
  const shown = drawn.intervals.filter(({ time }) => time <= to);
  const lengths = shown.map(({ length }) => length);
  const low = Math.floor(Math.min(...lengths) * 5) / 5;
  const high = Math.max(low + 0.4, Math.ceil(Math.max(...lengths) * 5) / 5);
  const x = (time: number) => left + ((time - from) / (to - from)) * (drawn.width - left - 2);
  const y = (length: number) => plotTop + plotHeight * ((high - length) / (high - low));
  const foot = plotTop + plotHeight;
  const marks: Mark[] = [
    text([0, 3.4], drawn.strings.interval, { size: 3, weight: 'bold', colour: inks.ink }),
  ];
  for (let step = 0; low + step * 0.2 <= high + 1e-9; step++) {
    const value = low + step * 0.2;
    marks.push(
      straight([left, y(value)], [drawn.width - 2, y(value)], inks.gridFine),
      text([left - 1.5, y(value) + 1], value.toFixed(1), {
        size: 2.8,
        align: 'end',
        colour: inks.soft,
      }),
    );
  }
  for (const time of drawn.breathAt) {
    if (time < from || time > to) continue;
    marks.push({
      kind: 'line',
      points: [
        [x(time), plotTop],
        [x(time), foot + 2],
      ],
      stroke: { colour: inks.soft, width: 0.3, dash: [1, 0.8] },
    });
  }
  if (shown.length > 1) {
    marks.push({
      kind: 'line',
      points: shown.map(({ time, length }): Point => [x(time), y(length)]),
      stroke: { colour: inks.rule, width: 0.3 },
    });
  }
  for (const { time, length } of shown) {
    marks.push({ kind: 'circle', centre: [x(time), y(length)], radius: 0.8, fill: inks.accent });
  }
  for (let second = from; second <= to; second += SECONDS_APART) {
    marks.push(
      text([x(second), foot + 5.4], `${second} s`, {
        size: 2.8,
        align: second === from ? 'start' : second === to ? 'end' : 'middle',
        colour: inks.soft,
      }),
    );
  }
  if (drawn.breathAt.length > 0) {
    marks.push(text([left, foot + 9.4], drawn.strings.breath, { size: 2.8, colour: inks.soft }));
  }
  return { width: drawn.width, height: foot + (drawn.breathAt.length > 0 ? 10.5 : 6.5), marks };
}

const straight = (from: Point, to: Point, colour: string): Mark => ({
  kind: 'line',
  points: [from, to],
  stroke: { colour, width: 0.2 },
});
