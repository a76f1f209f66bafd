import { beside } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { heartInks as inks } from './inks.js';
import { area, contour, fine, line } from './marks.js';
import { type Vessel, vessels } from './shape.js';

type Side = 'right' | 'left';

/** Thickness of a vessel's wall, mm of the drawing. Not a clinical number. */
const WALL = 1;

const hollowOf = (side: Side): string => (side === 'right' ? inks.venous : inks.arterial);

function sides(
  { middle, half }: Vessel,
  from: number,
  to: number,
  steps: number,
): [Point[], Point[]] {
  const side = (aside: number) =>
    Array.from({ length: steps + 1 }, (_, i) =>
      beside(middle, from + ((to - from) * i) / steps, aside),
    );
  return [side(-half), side(half)];
}

/** A vessel with its wall, open at both ends. */
function tube(vessel: Vessel, side: Side, from = 0, to = 1): Mark[] {
  const [a, b] = sides(vessel, from, to, 24);
  const [c, d] = sides({ ...vessel, half: vessel.half + WALL }, from, to, 24);
  const edge = { name: 'outline' };
  return [
    area([...c, ...[...d].reverse()], side === 'right' ? inks.vein : inks.artery, {
      name: `vessel ${side}`,
    }),
    area([...a, ...[...b].reverse()], hollowOf(side), { name: `hollow ${side}` }),
    line(c, contour, edge),
    line(d, contour, edge),
    line(a, fine, edge),
    line(b, fine, edge),
  ];
}

/** The hollow alone, over whatever wall it opens into. */
function mouth({ middle, half }: Vessel, side: Side, from: number, to: number): Mark {
  const [a, b] = sides({ middle, half: half - 0.12 }, from, to, 6);
  return area([...a, ...b.reverse()], hollowOf(side), { name: `hollow ${side}` });
}

/** The vessels that the chambers lie in front of. */
export const vesselsBehind = (): Mark[] => [
  ...tube(vessels.rightPulmonaryArtery, 'right'),
  ...tube(vessels.cranialVenaCava, 'right', 0, 0.88),
  ...tube(vessels.caudalVenaCava, 'right', 0, 0.88),
  ...tube(vessels.aorta, 'left', 0.5, 1),
  ...tube(vessels.pulmonaryVeinAbove, 'left', 0, 0.7),
  ...tube(vessels.pulmonaryVeinBelow, 'left', 0, 0.7),
];

/** Where veins open into the atria no wall may show. */
export const mouthsOfVeins = (): Mark[] => [
  mouth(vessels.cranialVenaCava, 'right', 0.7, 0.93),
  mouth(vessels.caudalVenaCava, 'right', 0.7, 0.88),
  mouth(vessels.pulmonaryVeinAbove, 'left', 0.5, 0.71),
  mouth(vessels.pulmonaryVeinBelow, 'left', 0.5, 0.69),
];

/** The root of the aorta, which lies in front of the atria. */
export const aortaInFront = (): Mark[] => tube(vessels.aorta, 'left', 0.03, 0.62);

/** The trunk crosses in front of the aorta; below it opens into the right ventricle. */
export const pulmonaryTrunk = (): Mark[] => [
  ...tube(vessels.leftPulmonaryArtery, 'right', 0, 1),
  ...tube(vessels.pulmonaryTrunk, 'right', 0.16, 0.86),
  mouth(vessels.leftPulmonaryArtery, 'right', 0.04, 0.5),
  mouth(vessels.pulmonaryTrunk, 'right', 0.08, 0.3),
  mouth(vessels.pulmonaryTrunk, 'right', 0.6, 0.95),
];
