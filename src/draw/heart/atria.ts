import type { Mark, Point } from '../drawing.js';
import { withinCircle } from '../within-circle.js';
import { heartInks as inks } from './inks.js';
import { area, closedLine, contour, fine } from './marks.js';
import { type Atrium, leftAtrium, rightAtrium, sinusNode } from './shape.js';

/** Steps in which the front crosses the atria. Of the drawing: not a clinical number. */
const STEPS = 9;

const distance = ([x, y]: Point): number => Math.hypot(x - sinusNode[0], y - sinusNode[1]);
const farthest = Math.max(...leftAtrium.outer.map(distance));

/**
 * Both atria; wall and back wall each as discs around the sinus node, the widest first, so that the front spreads from
 * there and reaches the far side of the left atrium last.
 * @param crossed share of the atria that the front has crossed, 0 to 1
 */
export const atria = (crossed: number): Mark[] => [
  ...atrium(leftAtrium, 'left', crossed),
  ...atrium(rightAtrium, 'right', crossed),
];

function atrium({ outer, inner }: Atrium, side: 'right' | 'left', crossed: number): Mark[] {
  const discs = (points: readonly Point[], part: string, rest: string, excited: string): Mark[] =>
    Array.from({ length: STEPS }, (_, i) => STEPS - i).flatMap((k) => {
      const turn = (k - 1) / STEPS;
      const radius = (farthest * k) / STEPS;
      const nearest = Math.min(...points.map(distance));
      const isOverAll = points.every((point) => distance(point) <= radius);
      const isNext = points.every((point) => distance(point) <= (farthest * (k - 1)) / STEPS);
      if (isNext || (radius < nearest && side === 'left')) return [];
      const piece = isOverAll ? points : withinCircle(points, sinusNode, radius);
      return piece.length < 3
        ? []
        : [area(piece, crossed > turn ? excited : rest, { name: `${side} atrium ${part}`, turn })];
    });
  return [
    ...discs(outer, 'wall', inks.muscle, inks.excited),
    closedLine(outer, contour),
    ...discs(inner, 'back', side === 'right' ? inks.venous : inks.arterial, inks.excitedBack),
    closedLine(inner, fine),
  ];
}
