import { blob, looseGrid, sampled, scattered } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import type { DrawnWound } from './drawn-wound.js';
import { ink } from './pens.js';
import { drop, redness } from './skin.js';

const bed = { centre: [21.4, 15.9] as Point, radii: [11.6, 6.8] as Point };
const bedEdge = (angle: number) => 1 + 0.05 * Math.sin(2 * angle + 1) + 0.035 * Math.sin(5 * angle);
const shareOfBed = ([x, y]: Point, grow = 0): number => {
  const [dx, dy] = [x - bed.centre[0], y - bed.centre[1]];
  const share = Math.hypot(dx / (bed.radii[0] + grow), dy / (bed.radii[1] + grow));
  return share / bedEdge(Math.atan2(dy, dx));
};

/** A wound that was left open, as it should fill in: moist, bumpy, with new skin at its rim. */
export function goodOpenWound(): DrawnWound {
  return {
    marks: [
      {
        kind: 'area',
        points: bedOutline(1.5),
        fill: inks.paper,
        stroke: { colour: inks.faint, width: 0.25 },
      },
      { kind: 'area', points: bedOutline(0), fill: inks.tint, stroke: { ...ink, width: 0.5 } },
      ...pebbles(() => true),
    ],
    at: {
      edges: [bed.centre[0] + 9.4, bed.centre[1] - 5],
      holder: [bed.centre[0] + 6.4, bed.centre[1] - 0.4],
      around: [bed.centre[0] + 13, bed.centre[1] + 5.6],
      fluid: [bed.centre[0] + 2, bed.centre[1] + 6.4],
    },
  };
}

/** The same when it needs help: dead patches, pus, and red, swollen skin around. */
export function badOpenWound(): DrawnWound {
  const dead: readonly (readonly [Point, Point, number])[] = [
    [[16.6, 13.9], [3.4, 2.1], 0.4],
    [[26.6, 15.3], [2.5, 1.8], 2.1],
    [[20, 19.1], [1.7, 1], 4.2],
  ];
  const low: Point = [24.6, 21.3];
  return {
    marks: [
      ...redness((at) => Math.max(0, (shareOfBed(at) - 1) * 8), 6, 0.9),
      ...[1.6, 2.9].map(
        (grow, i): Mark => ({
          kind: 'line',
          points: closed(bedOutline(grow)),
          stroke: { colour: inks.faint, width: 0.3 - 0.07 * i, ...(i > 0 && { dash: [1.8, 0.9] }) },
        }),
      ),
      { kind: 'area', points: bedOutline(0), fill: inks.paper, stroke: { ...ink, width: 0.6 } },
      ...pebbles(([x, y]) => scattered(x, y) > 0.45),
      ...dead.map(
        ([centre, radii, turn]): Mark => ({
          kind: 'area',
          points: blob(
            centre,
            radii,
            (a) => 1 + 0.13 * Math.sin(3 * a + turn) + 0.05 * Math.sin(5 * a),
          ),
          fill: inks.ink,
        }),
      ),
      ...drop(low, 2.1, inks.paper),
      ...drop([low[0] - 3.8, low[1] - 0.1], 1.3, inks.paper),
    ],
    at: {
      edges: [bed.centre[0] + 9.8, bed.centre[1] - 3.6],
      holder: [27.4, 14.7],
      around: [bed.centre[0] + 13, bed.centre[1] + 3],
      fluid: [low[0] + 0.4, low[1] + 3],
    },
  };
}

const bedOutline = (grow: number): Point[] =>
  blob(bed.centre, [bed.radii[0] + grow, bed.radii[1] + grow], bedEdge);

const closed = (points: readonly Point[]): Point[] => [...points, points[0] as Point];

/** The grains of new tissue: three quarters of a ring each, open to where the light comes from. */
function pebbles(keep: (at: Point) => boolean): Mark[] {
  const [[cx, cy], [rx, ry]] = [bed.centre, bed.radii];
  return looseGrid([cx - rx, cy - ry], [cx + rx, cy + ry], 1.95, 11).flatMap((at): Mark[] => {
    const size = 0.62 + 0.3 * scattered(at[0], at[1]);
    if (shareOfBed(at, -size - 0.3) > 1 || !keep(at)) return [];
    return [
      {
        kind: 'line',
        points: sampled((t) => {
          const a = -0.5 + 4.4 * t;
          return [at[0] + size * Math.cos(a), at[1] + size * 0.85 * Math.sin(a)];
        }, 12),
        stroke: { colour: inks.soft, width: 0.22 },
      },
    ];
  });
}
