import { type Curve, sampled } from '../curve.js';
import type { Mark, Point, Stroke } from '../drawing.js';
import { heartInks as inks } from './inks.js';
import { line } from './marks.js';
import {
  atrialPaths,
  avNode,
  bundle,
  leftBranch,
  leftWall,
  moderatorBand,
  pathToLeftAtrium,
  rightBranch,
  rightWall,
  sinusNode,
  type Wall,
  within,
} from './shape.js';

const PATH_PARTS = ['sinus node', 'atrial paths', 'node', 'bundle', 'branches', 'ends'] as const;
/** A part of the way that the current takes, in its order. */
export type PathPart = (typeof PATH_PARTS)[number];

/** The way of the current, drawn through all that lies in front of it. */
export function currentsWay(lit: readonly PathPart[]): Mark[] {
  const colour = (part: PathPart) => (lit.includes(part) ? inks.current : inks.path);
  const cord = (curve: Curve, part: PathPart, width: number, dash?: readonly number[]): Mark[] => {
    const points = sampled(curve, 14);
    const stroke: Stroke = { colour: colour(part), width, ...(dash && { dash }) };
    return [
      line(points, { colour: inks.halo, width: width + 0.7 }, { name: 'halo' }),
      line(points, stroke, { name: part }),
    ];
  };
  const knot = (centre: Point, radius: number, part: PathPart): Mark => ({
    kind: 'circle',
    centre,
    radius,
    fill: colour(part),
    stroke: { colour: inks.halo, width: 0.4 },
    part: { name: part },
  });
  return [
    ...[...atrialPaths, pathToLeftAtrium].flatMap((curve) =>
      cord(curve, 'atrial paths', 0.5, [1.5, 1]),
    ),
    ...ends(colour('ends')),
    ...cord(moderatorBand, 'branches', 0.7),
    ...cord(rightBranch, 'branches', 0.9),
    ...cord(leftBranch, 'branches', 0.9),
    ...cord(bundle, 'bundle', 1.3),
    knot(sinusNode, 1.7, 'sinus node'),
    knot(avNode, 1.7, 'node'),
  ];
}

/** Along the inside of the free walls, with twigs into the muscle. */
function ends(colour: string): Mark[] {
  const net = (wall: Wall, from: number, to: number, twigs: number): Mark[] => {
    const along = within(wall, 0.12, from, to);
    const twig = (t: number) => {
      const deep = within(wall, 0.42, from, to);
      return [along(t), deep(Math.min(1, t + 0.04))];
    };
    return [
      sampled(along, 16),
      ...Array.from({ length: twigs }, (_, i) => twig((i + 0.5) / twigs)),
    ].map((points) => line(points, { colour, width: 0.45 }, { name: 'ends' }));
  };
  return [...net(leftWall, 0.46, 0.84, 8), ...net(rightWall, 0.3, 0.95, 6)];
}
