import { around, type Curve, sampled } from '../curve.js';
import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { accent, arrow, lettered, line, pen, WIDTH } from './pointed.js';

/** What each of the two cuts shows. */
export interface EdgesWords {
  readonly long: string;
  readonly short: string;
}

const HEIGHT = 55;

/** A long cut whose edges meet above a short one whose edges lie apart; arrows show the way that has to be healed. */
export function edges(words: EdgesWords): Drawing {
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      skin(6.5, 14),
      ...closed(13.5),
      ...lettered([4, 4], words.long, { room: WIDTH - 8, bold: true }),
      skin(30.5, 22.5),
      ...open(41.7),
      ...lettered([4, 28], words.short, { room: WIDTH - 8, bold: true }),
    ],
  };
}

const skin = (top: number, height: number): Mark => ({
  kind: 'area',
  points: [
    [2, top],
    [WIDTH - 2, top],
    [WIDTH - 2, top + height],
    [2, top + height],
  ],
  fill: inks.tint,
});

/** Edges that touch: the way across is as short everywhere. */
function closed(middle: number): Mark[] {
  const cut: Curve = (t) => [6 + (WIDTH - 12) * t, middle + 0.9 * Math.sin(2 * Math.PI * t)];
  const ways = Array.from({ length: 11 }, (_, i) => cut((i + 0.5) / 11));
  return [
    line(sampled(cut, 60), { ...pen, width: 0.5 }),
    ...ways.flatMap(([x, y]) => [
      ...arrow([x, y - 3.4], [x, y - 0.5], accent, 1.2),
      ...arrow([x, y + 3.4], [x, y + 0.5], accent, 1.2),
    ]),
  ];
}

/** Edges that lie apart: the way across is the width of the gap. */
function open(middle: number): Mark[] {
  const length = 25;
  const start = (WIDTH - length) / 2;
  const axis: Curve = (t) => [start + length * t, middle];
  const half = (u: number) => 8.6 * Math.sin(Math.PI * u) ** 0.7;
  const floor = around(axis, [0, 1], half, 40);
  const ways = [0.22, 0.36, 0.5, 0.64, 0.78].map((u): [x: number, reach: number] => [
    start + length * u,
    half(u),
  ]);
  const grains = ways.flatMap(([x, reach], i): Mark[] =>
    [-0.55, -0.2, 0.2, 0.55].map((share, k) => ({
      kind: 'circle',
      centre: [x + 1.5, middle + reach * share + (i % 2) * 0.7] as Point,
      radius: 0.28 + 0.06 * (k % 2),
      fill: inks.faint,
    })),
  );
  return [
    { kind: 'area', points: floor, fill: inks.gridFine, stroke: { ...pen, width: 0.5 } },
    ...grains,
    ...ways.flatMap(([x, reach]) => [
      ...arrow([x, middle - reach], [x, middle - 0.6], accent, 1.2),
      ...arrow([x, middle + reach], [x, middle + 0.6], accent, 1.2),
    ]),
  ];
}
