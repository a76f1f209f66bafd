import { around, bent, beside, blob } from '../curve.js';
import type { Point } from '../drawing.js';
import { inks } from '../inks.js';
import type { DrawnWound } from './drawn-wound.js';
import { fine } from './pens.js';
import { drop, redness } from './skin.js';

/** A drain that leaves the skin beside the wound, and what runs from it. */
export function drainTube(good: boolean): DrawnWound['marks'] {
  const way = bent([27.4, 21.9], [31.8, 22.3], [33.4, 27.4]);
  const mouth = way(1);
  return [
    ...(good ? [] : redness(([x, y]) => Math.hypot(x - 27.4, y - 21.9), 4, 0.8)),
    { kind: 'area', points: blob([27.4, 21.9], [1.6, 1.2]), fill: inks.soft, stroke: fine },
    {
      kind: 'area',
      points: around(way, [0, 1], () => 0.85),
      fill: inks.paper,
      stroke: { colour: inks.ink, width: 0.32 },
    },
    {
      kind: 'line',
      points: Array.from({ length: 13 }, (_, i) => beside(way, 0.1 + (0.8 * i) / 12, -0.3)),
      stroke: { colour: inks.rule, width: 0.25 },
    },
    { kind: 'area', points: blob(mouth, [0.85, 0.42]), fill: inks.soft, stroke: fine },
    ...drop([mouth[0], mouth[1] + 0.5], good ? 0.7 : 1.2, good ? inks.paper : inks.soft),
  ];
}

/** Where a drain's fluid is seen. */
export const drainMouth: Point = [33.6, 28.8];
