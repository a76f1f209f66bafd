import type { Point } from './drawing.js';

/** Corners of the polygon that stands for the circle. */
const CORNERS = 30;

/** The part of an outline that lies within a circle (Sutherland and Hodgman 1974, against a polygon of 30 corners). */
export function withinCircle(outline: readonly Point[], [cx, cy]: Point, radius: number): Point[] {
  const corner = (i: number): Point => {
    const angle = (2 * Math.PI * i) / CORNERS;
    return [cx + radius * Math.cos(angle), cy + radius * Math.sin(angle)];
  };
  let kept = [...outline];
  for (let i = 0; i < CORNERS && kept.length > 0; i++) {
    kept = besideLine(kept, corner(i), corner(i + 1));
  }
  return kept;
}

/** What lies on the inner side of one edge. */
function besideLine(points: readonly Point[], [ax, ay]: Point, [bx, by]: Point): Point[] {
  const side = ([x, y]: Point) => (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  return points.flatMap((point, i): Point[] => {
    const before = points.at(i - 1) as Point;
    const [here, there] = [side(point), side(before)];
    if (here >= 0 === there >= 0) return here >= 0 ? [point] : [];
    const share = there / (there - here);
    const cut: Point = [
      before[0] + (point[0] - before[0]) * share,
      before[1] + (point[1] - before[1]) * share,
    ];
    return here >= 0 ? [cut, point] : [cut];
  });
}
