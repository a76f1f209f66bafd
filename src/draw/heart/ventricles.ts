import { sampled, through } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { heartInks as inks } from './inks.js';
import { area, closedLine, contour, fine, line } from './marks.js';
import {
  leftVentricle,
  leftWall,
  rightVentricle,
  rightWall,
  SEPTUM_TO,
  type Wall,
  within,
} from './shape.js';

/**
 * When the front reaches a place along a wall, as a share of QRS: the middle of the septum from its left side first,
 * then the apex, then the free walls from within outwards, the base last. Order and shares: from memory, unverified.
 */
const TURNS: Readonly<Record<'left' | 'right', readonly Point[]>> = {
  left: [
    [0, 0.4],
    [0.13, 0.04],
    [0.22, 0],
    [0.36, 0.1],
    [0.5, 0.22],
    [0.75, 0.4],
    [1, 0.68],
  ],
  right: [
    [0, 0.62],
    [0.4, 0.34],
    [0.75, 0.2],
    [1, 0.2],
  ],
};
/** How much later the outer half of a wall has its turn. From memory, unverified. */
const OUTWARDS = { septum: 0.16, left: 0.26, right: 0.16 } as const;
/** Slices along each wall, and across it. Of the drawing: not clinical numbers. */
const SLICES = { left: 26, right: 14, across: 2 } as const;

/** @param crossed share of the ventricles that the front has crossed, 0 to 1 */
export const ventricles = (crossed: number, excited: string): Mark[] => [
  area(rightVentricle, inks.venous, { name: 'hollow right' }),
  area(leftVentricle, inks.arterial, { name: 'hollow left' }),
  ...slices(rightWall, 'right', crossed, excited),
  closedLine(shape(rightWall), contour),
  ...slices(leftWall, 'left', crossed, excited),
  closedLine(shape(leftWall), contour),
  ...heldLeaflets(),
];

const shape = ({ inner, outer }: Wall): Point[] => [
  ...sampled(inner, 44),
  ...sampled(outer, 44).reverse(),
];

function slices(wall: Wall, side: 'left' | 'right', crossed: number, excited: string): Mark[] {
  const count = SLICES[side];
  return Array.from({ length: count * SLICES.across }, (_, n): Mark => {
    const [along, layer] = [n % count, Math.floor(n / count)];
    const [from, to] = [along / count, (along + 1) / count];
    const isSeptum = side === 'left' && from < SEPTUM_TO;
    const later = layer * (isSeptum ? OUTWARDS.septum : OUTWARDS[side]);
    const turn = Math.min(0.99, turnAt((from + to) / 2, TURNS[side]) + later);
    const colour = crossed > turn ? excited : inks.muscle;
    return area(
      [
        ...sampled(within(wall, layer / SLICES.across, from, to), 3),
        ...sampled(within(wall, (layer + 1) / SLICES.across, from, to), 3).reverse(),
      ],
      colour,
      { name: `${side} ventricle wall`, turn },
      // Its own tone around it, lest the paper shine through between two slices.
      { colour, width: 0.2 },
    );
  });
}

function turnAt(along: number, table: readonly Point[]): number {
  const next = Math.max(
    1,
    table.findIndex(([at]) => at >= along),
  );
  const [x0, y0] = table[next - 1] as Point;
  const [x1, y1] = table[next] as Point;
  return y0 + ((y1 - y0) * (along - x0)) / (x1 - x0);
}

/** The muscles within that hold the leaflets, and their cords. */
function heldLeaflets(): Mark[] {
  const muscle = (wall: Wall, [from, to]: Point, tip: readonly Point[]): Mark => {
    const foot = sampled(wall.inner, 2, from, to);
    const outline = sampled(through([...foot.slice(0, 1), ...tip, ...foot.slice(-1)]), 16);
    return area(outline, inks.muscle, { name: 'held' }, fine);
  };
  const cord = (...points: Point[]) => line(points, fine, { name: 'outline' });
  return [
    cord([77.2, 74], [80.6, 66.8]),
    cord([77, 74], [76.6, 67]),
    cord([69.4, 77], [70.6, 68.4]),
    cord([69.6, 77], [73, 67]),
    cord([46, 76], [40.4, 69.6]),
    cord([46.2, 76], [46.8, 69.2]),
    muscle(
      leftWall,
      [0.62, 0.8],
      [
        [75.4, 83],
        [75.8, 76],
        [77.2, 73.6],
        [78.9, 75.4],
        [80.4, 79],
      ],
    ),
    muscle(
      leftWall,
      [0.37, 0.24],
      [
        [68.8, 87],
        [70.2, 80.6],
        [69.6, 77.2],
        [68, 77.2],
        [65.4, 81],
      ],
    ),
    muscle(
      rightWall,
      [0.52, 0.28],
      [
        [47.6, 83.6],
        [47.8, 78],
        [46.4, 75.8],
        [44.4, 76.2],
        [41.8, 77.4],
      ],
    ),
  ];
}
