import { direction, sampled, through } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { leaflet, line } from './marks.js';
import { vessels } from './shape.js';

type Inflow = 'tricuspid' | 'mitral';
type Outflow = 'pulmonary' | 'aortic';
/** The valves between atria and ventricles, and those of the great arteries. */
export type ValveName = Inflow | Outflow;
/** What is drawn of a valve; a moment between the two is not. */
export type ValveState = 'open' | 'shut';

/** Hinge, free edge, and how far the leaflet bellies to one side, mm. */
type Leaf = readonly [hinge: Point, edge: Point, belly: number];

const INFLOW: Readonly<Record<Inflow, Readonly<Record<ValveState, readonly Leaf[]>>>> = {
  tricuspid: {
    shut: [
      [[37.2, 62.2], [43.2, 65.4], 1],
      [[49.3, 60.8], [43.2, 65.4], -1],
    ],
    open: [
      [[37.2, 62.2], [40.4, 69.8], 0.9],
      [[49.3, 60.8], [46.9, 69.4], -0.9],
    ],
  },
  mitral: {
    shut: [
      [[68.6, 58.8], [76, 63.2], 1.2],
      [[82.6, 58.4], [76, 63.2], -1],
    ],
    open: [
      [[68.6, 58.8], [70.9, 68.6], 0.9],
      [[82.6, 58.4], [80.5, 67], -0.9],
    ],
  },
};

/** Share of the vessel's way at which its valve stands. */
const STANDS_AT: Readonly<Record<Outflow, number>> = { pulmonary: 0.37, aortic: 0.045 };

/** The leaflets of a valve as lines. */
export function leaflets(name: ValveName, state: ValveState): Point[][] {
  return name === 'pulmonary' || name === 'aortic'
    ? cusps(name, state)
    : INFLOW[name][state].map(flap);
}

function flap([[ax, ay], [bx, by], belly]: Leaf): Point[] {
  const length = Math.hypot(bx - ax, by - ay);
  const [nx, ny] = [-(by - ay) / length, (bx - ax) / length];
  return sampled((t) => {
    const out = belly * 4 * t * (1 - t);
    return [ax + (bx - ax) * t + nx * out, ay + (by - ay) * t + ny * out];
  }, 6);
}

/** Shut, cusps bulge against each other like pockets; open, they lie along the wall. */
function cusps(name: Outflow, state: ValveState): Point[][] {
  const { middle, half } = name === 'aortic' ? vessels.aorta : vessels.pulmonaryTrunk;
  const at = STANDS_AT[name];
  const [x, y] = middle(at);
  const [dx, dy] = direction(middle, at);
  const place = (aside: number, along: number): Point => [
    x - dy * aside * half + dx * along,
    y + dx * aside * half + dy * along,
  ];
  return [-1, 1].map((side) =>
    sampled(
      through(
        state === 'shut'
          ? [
              place(side, 1.8),
              place(side * 0.8, -0.4),
              place(side * 0.45, -1.2),
              place(side * 0.14, -0.2),
              place(0, 2),
            ]
          : [
              place(side, -0.6),
              place(side * 0.76, 1),
              place(side * 0.66, 2.6),
              place(side * 0.7, 4.2),
            ],
      ),
      9,
    ),
  );
}

/** Printed as while the ventricles fill: inflow open, outflow shut. */
export const valve = (name: ValveName): Mark[] =>
  leaflets(name, name === 'tricuspid' || name === 'mitral' ? 'open' : 'shut').map((points) =>
    line(points, leaflet, { name: `valve ${name}` }),
  );
