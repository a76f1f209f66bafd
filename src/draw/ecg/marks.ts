import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { textWidth } from '../text-width.js';
import { type Row, xOf, yOf } from './row.js';

/** 1 mV high and 5 mm wide, from a whole box. */
export function calibration(row: Row): Mark[] {
  const base = Math.max(row.low + 0.5, Math.min(0, row.high - 1.5));
  const x = row.left;
  const points: Point[] = [
    [x, yOf(row, base)],
    [x + 2, yOf(row, base)],
    [x + 2, yOf(row, base + 1)],
    [x + 7, yOf(row, base + 1)],
    [x + 7, yOf(row, base)],
    [x + 9, yOf(row, base)],
  ];
  return [
    { kind: 'line', points, stroke: { colour: inks.ink, width: 0.28 } },
    text([x + 4.5, yOf(row, base + 1) - 0.9], '1 mV', {
      size: 2.4,
      align: 'middle',
      colour: inks.ink,
    }),
  ];
}

/** A tick under the trace at each whole second of a row, from `below` mm down, its second written under it. */
export function secondTicks(row: Row, below: number): Mark[] {
  const marks: Mark[] = [];
  for (let second = Math.ceil(row.from - 1e-9); second <= row.to + 1e-9; second++) {
    const x = xOf(row, second);
    if (x > row.left + row.across + 1e-6) continue;
    marks.push({
      kind: 'line',
      points: [
        [x, below],
        [x, below + 1.4],
      ],
      stroke: { colour: inks.ink, width: 0.2 },
    });
    const align = x > row.left + row.across - 3 ? 'end' : 'middle';
    const at: Point = [align === 'end' ? row.left + row.across : x, below + 3.9];
    marks.push(text(at, timeLabel(second, row.strip.to), { size: 2.5, align, colour: inks.soft }));
  }
  return marks;
}

/** `7 s`; minutes and seconds, such as `2:07`, where the stretch reaches beyond the first minute. */
export const timeLabel = (second: number, last: number): string =>
  last > 60 ? `${Math.floor(second / 60)}:${String(second % 60).padStart(2, '0')}` : `${second} s`;

const inside = (row: Row, time: number) => time >= row.from && time < row.to;

/** A short mark above the trace at each beat that was counted in a row. */
export function beatMarks(row: Row): Mark[] {
  return row.strip.beats
    .filter((beat) => inside(row, beat.time))
    .map((beat) => {
      const x = xOf(row, beat.time);
      const tip = row.top - 0.7;
      return {
        kind: 'area',
        points: [
          [x, tip],
          [x - 0.95, tip - 1.9],
          [x + 0.95, tip - 1.9],
        ],
        fill: inks.accent,
      };
    });
}

/** A bracket from onset to end under the paper and the wave's letter under its peak; QRS one line lower. A wave that touches an unreadable span is not claimed. */
export function waveLabels(row: Row, top: number): Mark[] {
  const marks: Mark[] = [];
  const free = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const beat of row.strip.beats) {
    const waves = [
      { name: 'P', wave: beat.p, lane: 0 },
      { name: 'QRS', wave: beat.qrs, lane: 1 },
      { name: 'T', wave: beat.t, lane: 0 },
    ];
    for (const { name, wave, lane } of waves) {
      if (!wave || wave.onset < row.from || wave.end > row.to) continue;
      if (row.strip.unreadable.some((s) => wave.onset < s.to && wave.end > s.from)) continue;
      const y = top + 0.5;
      const stroke = { colour: inks.ink, width: 0.25 };
      const [start, end, peak] = [xOf(row, wave.onset), xOf(row, wave.end), xOf(row, wave.peak)];
      const points: Point[] = [
        [start, y - 0.6],
        [start, y],
        [end, y],
        [end, y - 0.6],
      ];
      marks.push({ kind: 'line', points, stroke });
      const half = textWidth(name, 2.3) / 2;
      // Where beats crowd, the bracket stays and the letter gives way.
      if (peak - half < (free[lane] ?? 0)) continue;
      free[lane] = peak + half + 0.3;
      const at: Point = [peak, y + 2.3 + lane * 2.3];
      marks.push(text(at, name, { size: 2.3, align: 'middle', colour: inks.ink }));
    }
  }
  return marks;
}
