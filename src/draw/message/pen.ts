import { type Curve, sampled, through } from '../curve.js';
import type { Drawing, Mark, Point, Stroke } from '../drawing.js';
import { scaled } from '../enlarged.js';
import { inks } from '../inks.js';

// How the pictures of the main message are drawn: black lines, white paper, one tint.

/** Width and height of the sheet that they are drawn on. */
const SHEET = { width: 21, height: 16 } as const;
/** Millimetres on paper for one on that sheet. */
const PRINTED = 0.9;

/** The marks as a picture of the size at which it is printed. */
export const picture = (marks: readonly Mark[]): Drawing => ({
  width: SHEET.width * PRINTED,
  height: SHEET.height * PRINTED,
  marks: marks.map((mark) => scaled(mark, PRINTED)),
});

const OUTLINE: Stroke = { colour: inks.ink, width: 0.34 };
const FINE: Stroke = { colour: inks.ink, width: 0.2 };

/** Points on a smooth curve for each step between two that are given. */
const STEPS = 6;

export const smooth = (points: readonly Point[]): Point[] =>
  sampled(through(points), (points.length - 1) * STEPS);

/** A smooth outline that ends where it began. */
export function closed(points: readonly Point[]): Point[] {
  const [first, second] = points as [Point, Point];
  const last = points.at(-1) as Point;
  const around = through([last, ...points, first, second]);
  const steps = points.length + 2;
  return sampled(around, points.length * STEPS, 1 / steps, (points.length + 1) / steps);
}

export const outline = (points: readonly Point[]): Mark => ({
  kind: 'line',
  points,
  stroke: OUTLINE,
});

export const fine = (points: readonly Point[]): Mark => ({ kind: 'line', points, stroke: FINE });

export const shape = (points: readonly Point[], fill: string = inks.paper): Mark => ({
  kind: 'area',
  points,
  fill,
  stroke: OUTLINE,
});

/** A filled shape without an outline: to cover what lies behind it. */
export const cover = (points: readonly Point[], fill: string = inks.paper): Mark => ({
  kind: 'area',
  points,
  fill,
});

/** An eye with its light. */
export const eye = ([x, y]: Point, radius: number): Mark[] => [
  { kind: 'circle', centre: [x, y], radius, fill: inks.ink },
  {
    kind: 'circle',
    centre: [x - radius * 0.3, y - radius * 0.35],
    radius: radius * 0.3,
    fill: inks.paper,
  },
];

/** Short hairs, each from its root by the same way. */
export const hairs = (roots: readonly Point[], [dx, dy]: Point): Mark[] =>
  roots.map(([x, y]) =>
    fine([
      [x, y],
      [x + dx, y + dy],
    ]),
  );

/** An ellipse whose long axis leans; from and to in turns of the circle. */
export const ellipse =
  ([x, y]: Point, [a, b]: Point, lean: number): Curve =>
  (t) => {
    const angle = 2 * Math.PI * t;
    const [u, v] = [a * Math.cos(angle), b * Math.sin(angle)];
    return [
      x + u * Math.cos(lean) - v * Math.sin(lean),
      y + u * Math.sin(lean) + v * Math.cos(lean),
    ];
  };
