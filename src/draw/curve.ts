import type { Point } from './drawing.js';

/** A curve as a function of how far along it one is, 0 to 1. */
export type Curve = (t: number) => Point;

/** So many points of a curve from one place on it to another, both ends included. */
export const sampled = (curve: Curve, steps: number, from = 0, to = 1): Point[] =>
  Array.from({ length: steps + 1 }, (_, i) => curve(from + ((to - from) * i) / steps));

/** Quadratic Bezier curve. */
export const bent =
  ([ax, ay]: Point, [bx, by]: Point, [cx, cy]: Point): Curve =>
  (t) => {
    const s = 1 - t;
    return [s * s * ax + 2 * s * t * bx + t * t * cx, s * s * ay + 2 * s * t * by + t * t * cy];
  };

/** A smooth curve through points, each a step of equal length in `t` (Catmull-Rom). */
export function through(points: readonly Point[]): Curve {
  const steps = points.length - 1;
  const at = (i: number): Point => points[Math.max(0, Math.min(steps, i))] as Point;
  return (t) => {
    const i = Math.max(0, Math.min(steps - 1, Math.floor(t * steps)));
    const u = t * steps - i;
    const [a, b, c, d] = [at(i - 1), at(i), at(i + 1), at(i + 2)];
    const mixed = (k: 0 | 1) =>
      0.5 *
      (2 * b[k] +
        (c[k] - a[k]) * u +
        (2 * a[k] - 5 * b[k] + 4 * c[k] - d[k]) * u * u +
        (3 * b[k] - a[k] - 3 * c[k] + d[k]) * u * u * u);
    return [mixed(0), mixed(1)];
  };
}

/** Unit vector along the curve. */
export function direction(curve: Curve, t: number): Point {
  const step = 1e-3;
  const [ax, ay] = curve(t - step);
  const [bx, by] = curve(t + step);
  const length = Math.hypot(bx - ax, by - ay);
  return [(bx - ax) / length, (by - ay) / length];
}

/** The point beside the curve: `aside` mm to its right as one goes along it (y runs down), `along` mm ahead. */
export function beside(curve: Curve, t: number, aside: number, along = 0): Point {
  const [x, y] = curve(t);
  const [dx, dy] = direction(curve, t);
  return [x - dy * aside + dx * along, y + dx * aside + dy * along];
}

/** A closed outline around a part of a curve; `half` gives its half width in mm at each place, 0 to 1 along the part. */
export function around(
  curve: Curve,
  [from, to]: readonly [number, number],
  half: (u: number, side: 1 | -1) => number,
  steps = 36,
): Point[] {
  const edge = (side: 1 | -1) =>
    Array.from({ length: steps + 1 }, (_, i) => {
      const u = i / steps;
      return beside(curve, from + (to - from) * u, side * half(u, side));
    });
  return [...edge(-1), ...edge(1).reverse()];
}

/** An outline around a centre; `radius` gives its size at each angle as a share of the two radii. */
export const blob = (
  [x, y]: Point,
  [rx, ry]: Point,
  radius: (angle: number) => number = () => 1,
  steps = 72,
): Point[] =>
  Array.from({ length: steps }, (_, i) => {
    const angle = (2 * Math.PI * i) / steps;
    const r = radius(angle);
    return [x + rx * r * Math.cos(angle), y + ry * r * Math.sin(angle)];
  });

/** The same number between 0 and 1 for the same two numbers, always: spreads hairs and dots without a pattern. */
export function scattered(a: number, b: number): number {
  const x = Math.sin(a * 127.1 + b * 311.7) * 43758.5453;
  return x - Math.floor(x);
}

/** Points of a loose grid within a box, each pushed aside a little. */
export function looseGrid(
  [left, top]: Point,
  [right, bottom]: Point,
  step: number,
  salt: number,
): Point[] {
  const points: Point[] = [];
  for (let row = 0, y = top; y <= bottom; row++, y += step * 0.87) {
    for (let x = left + (row % 2) * (step / 2), column = 0; x <= right; column++, x += step) {
      points.push([
        x + (scattered(column + salt, row) - 0.5) * step * 0.7,
        y + (scattered(column, row + salt) - 0.5) * step * 0.7,
      ]);
    }
  }
  return points;
}
