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

/** The point between two that lies farthest off the straight stretch from one to the other; null where none is beyond reach. */
function farthestOff(
  points: readonly Point[],
  from: number,
  to: number,
  reach: number,
): number | null {
  const [x, y] = points[from] as Point;
  const [toX, toY] = points[to] as Point;
  const [right, down] = [toX - x, toY - y];
  const square = right * right + down * down;
  let [farthest, off]: [number | null, number] = [null, reach * reach];
  for (let i = from + 1; i < to; i++) {
    const point = points[i] as Point;
    const [dx, dy] = [point[0] - x, point[1] - y];
    // Of the stretch and not of the line that it lies on: beside a steep one a spike would pass for a part of it.
    const along = square === 0 ? 0 : Math.min(1, Math.max(0, (dx * right + dy * down) / square));
    const distance = (dx - along * right) ** 2 + (dy - along * down) ** 2;
    if (distance > off) [farthest, off] = [i, distance];
  }
  return farthest;
}
