import type { Point } from './drawing.js';

/**
 * The points of a line that are needed to draw it nowhere farther off than `tolerance`, in the unit of the points; first
 * and last are kept. After Ramer 1972 and Douglas and Peucker 1973. The line must not run backwards.
 */
export function thinned(points: readonly Point[], tolerance: number): Point[] {
  const kept = new Uint8Array(points.length).fill(1, 0, 1).fill(1, -1);
  const stretches: (readonly [number, number])[] = [[0, points.length - 1]];
  for (let stretch = stretches.pop(); stretch; stretch = stretches.pop()) {
    const [from, to] = stretch;
    const farthest = farthestOff(points, from, to, tolerance);
    if (farthest === null) continue;
    kept[farthest] = 1;
    stretches.push([from, farthest], [farthest, to]);
  }
  return points.filter((_, index) => kept[index] === 1);
}

/**
 * The point between two that lies farthest off the straight line from one to the other, or off both where they are one
 * place; null where none is beyond reach.
 */
function farthestOff(
  points: readonly Point[],
  from: number,
  to: number,
  reach: number,
): number | null {
  const [x, y] = points[from] as Point;
  const [toX, toY] = points[to] as Point;
  const length = Math.hypot(toX - x, toY - y);
  const [right, down] = length === 0 ? [0, 0] : [(toX - x) / length, (toY - y) / length];
  let [farthest, off]: [number | null, number] = [null, reach];
  for (let i = from + 1; i < to; i++) {
    const point = points[i] as Point;
    const [dx, dy] = [point[0] - x, point[1] - y];
    const distance = length === 0 ? Math.hypot(dx, dy) : Math.abs(dx * down - dy * right);
    if (distance > off) [farthest, off] = [i, distance];
  }
  return farthest;
}
