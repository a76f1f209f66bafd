import type { Drawing, Mark } from '../drawing.js';
import { paperGrid } from '../ecg/paper.js';
import { inks } from '../inks.js';
import { trace } from './beat.js';
import { accent, LEADING, lettered, line, pen, pointer, span, WIDTH } from './pointed.js';

/** What the boxes are and what each is worth. */
export interface PaperBoxesWords {
  readonly smallBox: string;
  readonly smallWorth: string;
  readonly largeBox: string;
  readonly largeWorth: string;
  readonly millivolt: string;
  readonly interval: string;
  readonly rate: string;
}

const HEIGHT = 57;
const left = 4;
const top = 11;
const across = 50;
const down = 30;
/** Small boxes between the two beats. */
const BOXES = 18;

/** ECG paper at true size, 25 mm/s and 10 mm/mV: what a box is worth, and how many lie between two beats. */
export function paperBoxes(words: PaperBoxesWords): Drawing {
  const frame = { left, right: left + across, baseline: top + 20, speed: 25, gain: 10 } as const;
  // R of the first beat on a bold line, so that the boxes can be counted from it.
  const first = 15;
  const peaks = [first, first + BOXES].map((box) => box / frame.speed);
  const [one, two] = [left + first, left + first + BOXES];
  const side = left + across + 3;
  const foot = top + down;
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      ...paperGrid(left, top, across, down),
      line(trace(frame, peaks), { ...pen, width: 0.45 }),
      ...span([one, 7], [two, 7], accent, 1.3),
      ...[one, two].map((x) =>
        line(
          [
            [x, 8.4],
            [x, top + 4],
          ],
          { colour: inks.accent, width: 0.25, dash: [0.8, 0.6] },
        ),
      ),
      ...lettered([two + 3, 5.4], words.interval, { room: WIDTH - two - 3, bold: true }),
      ...lettered([two + 3, 5.4 + LEADING], words.rate, { room: WIDTH - two - 3 }),
      ...box(left + 5, top + 25, 5),
      ...pointer([left + 7.5, foot + 5.4], [left + 7.5, foot]),
      ...worth(left, foot + 9, words.largeBox, words.largeWorth),
      ...box(left + 42, top + 26, 1),
      ...pointer([left + 42.5, foot + 5.4], [left + 42.5, top + 27.7]),
      ...worth(left + 38, foot + 9, words.smallBox, words.smallWorth),
      ...span([side, frame.baseline - 10], [side, frame.baseline], accent, 1.3),
      ...lettered([side + 2.6, frame.baseline - 4], words.millivolt, { room: WIDTH - side - 2.8 }),
    ],
  };
}

const worth = (x: number, y: number, name: string, value: string): Mark[] => [
  ...lettered([x, y], name, { room: 36, bold: true }),
  ...lettered([x, y + LEADING], value, { room: 44 }),
];

const box = (x: number, y: number, size: number): Mark[] => [
  {
    kind: 'line',
    points: [
      [x, y],
      [x + size, y],
      [x + size, y + size],
      [x, y + size],
      [x, y],
    ],
    stroke: { colour: inks.ink, width: 0.45 },
  },
];
