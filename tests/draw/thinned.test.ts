import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Point } from '../../src/draw/drawing.js';
import { thinned } from '../../src/draw/thinned.js';

/** Lines that never run backwards, some straight up, some with points in one place. */
const line = fc
  .array(
    fc.tuple(fc.constantFrom(0, 0, 0.05, 0.1, 1), fc.double({ min: -5, max: 5, noNaN: true })),
    {
      minLength: 1,
      maxLength: 200,
    },
  )
  .map((steps) => {
    let x = 0;
    return steps.map(([right, y]): Point => {
      x += right;
      return [x, y];
    });
  });

/** How far a point lies off the nearest point of a straight line between two. */
function offSegment([x, y]: Point, [ax, ay]: Point, [bx, by]: Point): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const share =
    square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(x - ax - share * dx, y - ay - share * dy);
}

describe('a thinned line', () => {
  it('keeps both ends, and only points of the line in their order', () => {
    fc.assert(
      fc.property(line, fc.double({ min: 0, max: 1, noNaN: true }), (points, tolerance) => {
        const left = thinned(points, tolerance);
        expect(left[0]).toBe(points[0]);
        expect(left.at(-1)).toBe(points.at(-1));
        let from = -1;
        for (const point of left) {
          const at = points.indexOf(point, from + 1);
          expect(at).toBeGreaterThan(from);
          from = at;
        }
      }),
    );
  });

  it('has no point of the line farther off its straight stretches than the tolerance', () => {
    const rising = line.map((points) =>
      points.filter(([x], i) => i === 0 || x > (points[i - 1] as Point)[0]),
    );
    fc.assert(
      fc.property(rising, fc.double({ min: 0.001, max: 1, noNaN: true }), (points, tolerance) => {
        const left = thinned(points, tolerance);
        for (const point of points) {
          const off = Math.min(
            ...left.map((from, i) => offSegment(point, from, left[i + 1] ?? from)),
          );
          expect(off).toBeLessThanOrEqual(tolerance + 1e-9);
        }
      }),
    );
  });

  it('leaves the ends of a straight line alone, and a spike whole', () => {
    const flat = Array.from({ length: 50 }, (_, i): Point => [i, 2]);
    expect(thinned(flat, 0.01)).toEqual([flat[0], flat[49]]);
    const spike = flat.with(20, [20, 2.03]);
    expect(thinned(spike, 0.02)).toContain(spike[20]);
    // Beyond the end of a steep stretch, though on its line.
    expect(
      thinned(
        [
          [0, 0],
          [0.01, -1],
          [0.05, 5],
        ],
        0.02,
      ),
    ).toHaveLength(3);
    // Up and back to one place: the way is not nothing.
    expect(
      thinned(
        [
          [1, 0],
          [1, 5],
          [1, 0],
        ],
        0.02,
      ),
    ).toHaveLength(3);
  });
});
