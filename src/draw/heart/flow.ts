import { type Curve, through } from '../curve.js';
import type { Point } from '../drawing.js';

/** A stretch of the blood's way. */
export interface Stream {
  readonly side: 'right' | 'left';
  readonly flow: 'return' | 'fill' | 'out';
  readonly way: Curve;
}

/** Right side and left side, each from its veins to its artery; mm of the heart's own coordinates, drawn by hand. */
export const STREAMS: readonly Stream[] = [
  {
    side: 'right',
    flow: 'return',
    way: through([
      [38.2, 12],
      [38.6, 28],
      [40, 42],
      [42.6, 54],
    ]),
  },
  {
    side: 'right',
    flow: 'return',
    way: through([
      [29.2, 80],
      [29.6, 68],
      [33, 58.6],
      [39.4, 55],
    ]),
  },
  {
    side: 'right',
    flow: 'fill',
    way: through([
      [43.2, 56],
      [43.6, 64],
      [46.4, 76],
      [53.4, 87],
    ]),
  },
  {
    side: 'right',
    flow: 'out',
    way: through([
      [51.6, 84],
      [51, 70],
      [53.2, 58],
      [57.2, 48.4],
      [62.2, 39.4],
      [67, 31],
    ]),
  },
  {
    side: 'right',
    flow: 'out',
    way: through([
      [67, 31],
      [73, 26.4],
      [82, 23.6],
      [95, 24],
    ]),
  },
  {
    side: 'left',
    flow: 'return',
    way: through([
      [96, 37],
      [88, 40.6],
      [82, 44],
      [78.6, 52],
    ]),
  },
  {
    side: 'left',
    flow: 'return',
    way: through([
      [96, 46.4],
      [88, 47.6],
      [83, 49.4],
      [80, 54],
    ]),
  },
  {
    side: 'left',
    flow: 'fill',
    way: through([
      [76.6, 54],
      [76, 63],
      [74.6, 76],
      [72, 89],
    ]),
  },
  {
    side: 'left',
    flow: 'out',
    way: through([
      [70.4, 86],
      [67.6, 72],
      [64.6, 59],
      [62.6, 51],
      [58.4, 41.6],
      [54.8, 32],
      [55.4, 20.6],
      [62.6, 13.4],
      [72, 13.6],
      [78, 20.6],
      [79, 26],
    ]),
  },
];

/** Where the words for the four ends of the way stand, and where they begin. */
export const STREAM_ENDS = {
  fromBody: { at: [38.2, 8.2], align: 'middle' },
  toLungs: { at: [95, 19], align: 'end' },
  fromLungs: { at: [95.6, 34], align: 'end' },
  toBody: { at: [66.8, 5.6], align: 'middle' },
} as const satisfies Readonly<Record<string, { at: Point; align: 'middle' | 'end' }>>;
