import { type Curve, sampled } from '../curve.js';
import type { Point } from '../drawing.js';

/** The cut: a calm line, a little bowed, across the shaved skin. */
export const cut: Curve = (t) => [6 + 31 * t, 17.3 - 2.2 * Math.sin(Math.PI * t) - 1.6 * t];

/** Where the cut gapes when it does, as shares of its length. */
export const gap = [0.42, 0.8] as const;
/** mm to either side, by the share of the gap. */
export const gape = (u: number) => 2.35 * Math.sin(Math.PI * u) ** 1.3;

/** Places of the stitches along the cut; it gapes at the fourth and the fifth. */
export const places = [0.06, 0.235, 0.41, 0.585, 0.76, 0.935] as const;

/** mm from the cut. */
export const fromCut = ([x, y]: Point): number =>
  Math.min(...sampled(cut, 30).map(([cx, cy]) => Math.hypot(x - cx, y - cy)));
