import { type Curve, sampled, through } from '../curve.js';
import type { Point } from '../drawing.js';

// Where everything of the heart lies, in mm of its drawing: cut open from the front, the patient's right on the left.
// Coordinates of a picture drawn by hand: not clinical numbers.

/** A wall between its inner and its outer side; both curves run side by side. */
export interface Wall {
  readonly inner: Curve;
  readonly outer: Curve;
}

/** From the crest of the septum down its left side, around the apex and up to the base of the free wall. */
export const leftWall: Wall = {
  inner: through([
    [62, 61.5],
    [61.6, 69],
    [62.8, 79],
    [65.6, 88],
    [68.6, 92.8],
    [72, 94.4],
    [75.4, 92.4],
    [78.8, 87.4],
    [82, 78.4],
    [83.3, 68],
    [82.6, 58.4],
  ]),
  outer: through([
    [57.7, 61],
    [54.2, 69.5],
    [54.6, 80.5],
    [58.6, 91.5],
    [65, 99],
    [73, 103.2],
    [81, 100.2],
    [87.2, 92],
    [91.4, 80.6],
    [92.2, 68],
    [88.2, 58.2],
  ]),
};

/** Where along the left wall the septum ends and the apex begins. */
export const SEPTUM_TO = 0.4;

/** From the base of the free wall down to the apex. */
export const rightWall: Wall = {
  inner: through([
    [37.4, 62.6],
    [38.2, 71],
    [42, 80.5],
    [48.8, 88.8],
    [57.2, 93.8],
    [60.4, 95.4],
  ]),
  outer: through([
    [33.9, 62.4],
    [34.8, 72],
    [39, 83.2],
    [46.6, 92.2],
    [56.4, 97.4],
    [64.2, 98.6],
  ]),
};

/** The hollow of the left ventricle, up to its two valves. */
export const leftVentricle: readonly Point[] = [
  ...sampled(leftWall.inner, 48),
  [76, 56.6],
  [68.4, 57.6],
  [61, 57.6],
];

/** The hollow of the right ventricle; the septum lies over its left side. */
export const rightVentricle: readonly Point[] = [
  ...sampled(rightWall.inner, 32, 0, 0.92),
  ...sampled(leftWall.outer, 24, 0.05, 0.36).reverse(),
  [57.7, 61],
  [49.4, 60.4],
];

const closed = (points: readonly Point[], steps: number): Point[] =>
  sampled(
    through([points.at(-1) as Point, ...points, points[0] as Point, points[1] as Point]),
    steps,
    1 / (points.length + 2),
    1 - 1 / (points.length + 2),
  ).slice(0, -1);

/** The outer and the inner side of the wall of an atrium, in mm. */
export interface Atrium {
  readonly outer: readonly Point[];
  readonly inner: readonly Point[];
}

/** On the left of the drawing, as the heart is seen from the front. */
export const rightAtrium: Atrium = {
  inner: closed(
    [
      [38.5, 32.4],
      [43.6, 33.4],
      [49.4, 38],
      [53.6, 46],
      [53, 55],
      [49.2, 60.6],
      [43, 61.2],
      [37, 62],
      [31.4, 60.4],
      [27.8, 54.4],
      [27.6, 46],
      [30.4, 38],
      [34, 33.6],
    ],
    44,
  ),
  outer: closed(
    [
      [38.5, 30.6],
      [44.4, 31.6],
      [50.8, 36.6],
      [55.2, 45.6],
      [55, 56],
      [50.4, 61.6],
      [43, 63],
      [36.4, 64],
      [29.8, 61.8],
      [26, 55],
      [25.8, 45.4],
      [28.8, 36.8],
      [33, 31.8],
    ],
    44,
  ),
};

/** On the right of the drawing, as the heart is seen from the front. */
export const leftAtrium: Atrium = {
  inner: closed(
    [
      [58.6, 40],
      [66, 36.6],
      [76, 36],
      [84, 38.4],
      [88.2, 44.4],
      [87.4, 52.6],
      [83, 57.6],
      [76, 58.2],
      [68.6, 58.6],
      [61, 57],
      [57.4, 50],
    ],
    44,
  ),
  outer: closed(
    [
      [57.2, 38.8],
      [65.6, 34.9],
      [76.2, 34.2],
      [85.2, 36.8],
      [90, 43.8],
      [89.2, 53.6],
      [84.6, 59.2],
      [76, 60],
      [68, 60],
      [59.6, 58.6],
      [55.8, 50],
    ],
    44,
  ),
};

/** A vessel: its middle, and half of the width of its hollow. */
export interface Vessel {
  readonly middle: Curve;
  readonly half: number;
}

/** The great vessels: the middle of each as a curve and its width, in mm. */
export const vessels = {
  cranialVenaCava: {
    middle: through([
      [38, 11],
      [38.2, 20],
      [38.5, 28],
      [38.8, 34.6],
    ]),
    half: 3.7,
  },
  caudalVenaCava: {
    middle: through([
      [29.2, 82],
      [29.2, 75],
      [29.8, 67],
      [32.4, 58],
    ]),
    half: 3.5,
  },
  pulmonaryVeinAbove: {
    middle: through([
      [97, 36.6],
      [93, 38.4],
      [88, 40.6],
      [82, 43],
    ]),
    half: 2.2,
  },
  pulmonaryVeinBelow: {
    middle: through([
      [97, 46.2],
      [93, 46.8],
      [88, 47.6],
      [82, 48.6],
    ]),
    half: 2.2,
  },
  aorta: {
    middle: through([
      [64.4, 59],
      [62.6, 51],
      [58.4, 41.6],
      [54.8, 32],
      [55.4, 20.6],
      [62.6, 13.4],
      [72, 13.6],
      [78, 20.6],
      [79.4, 31],
      [79.6, 40],
    ]),
    half: 4.5,
  },
  pulmonaryTrunk: {
    middle: through([
      [51, 67],
      [53.2, 58],
      [57.2, 48.4],
      [62.2, 39.4],
      [66.6, 31.6],
      [72.4, 26.6],
    ]),
    half: 4.2,
  },
  rightPulmonaryArtery: {
    middle: through([
      [67, 31],
      [58, 26.4],
      [47, 25.6],
      [30, 27],
    ]),
    half: 2.7,
  },
  leftPulmonaryArtery: {
    middle: through([
      [65.6, 32.4],
      [72.4, 26.2],
      [82, 23.6],
      [96, 24.2],
    ]),
    half: 2.9,
  },
} as const satisfies Record<string, Vessel>;

/** The current's own way. */
export const sinusNode: Point = [33.4, 37.4];
/** The atrioventricular node, low in the wall between the atria. */
export const avNode: Point = [47.6, 56.6];

/** From the sinus node through the right atrium to the atrioventricular node. */
export const atrialPaths: readonly Curve[] = [
  through([sinusNode, [30.4, 46], [33.6, 54.6], [40.6, 57.6], avNode]),
  through([sinusNode, [38.6, 44], [43.4, 50.6], avNode]),
  through([sinusNode, [42.4, 38.6], [48, 46], avNode]),
];
/** To the left atrium, in front of its roof. */
export const pathToLeftAtrium: Curve = through([
  sinusNode,
  [40, 34.6],
  [50, 37.4],
  [62, 41],
  [74, 41.4],
  [83.6, 46.6],
]);

/** From the atrioventricular node into the septum. */
export const bundle: Curve = through([avNode, [52, 58.6], [56.6, 61.4], [59.4, 65.4]]);

/** A curve within a wall, so far from its inner to its outer side. */
export const within =
  ({ inner, outer }: Wall, depth: number, from: number, to: number): Curve =>
  (t) => {
    const u = from + (to - from) * t;
    const [ax, ay] = inner(u);
    const [bx, by] = outer(u);
    return [ax + (bx - ax) * depth, ay + (by - ay) * depth];
  };

/** Down the left side of the septum. */
export const leftBranch: Curve = through([
  bundle(1),
  within(leftWall, 0.22, 0.1, 0.1)(0),
  ...sampled(within(leftWall, 0.14, 0.16, 0.46), 4),
]);
/** Down the right side of the septum. */
export const rightBranch: Curve = through([
  bundle(1),
  within(leftWall, 0.78, 0.1, 0.1)(0),
  ...sampled(within(leftWall, 0.86, 0.15, 0.34), 3),
]);
/** The band that carries a part of the right branch across the hollow to the free wall. */
export const moderatorBand: Curve = through([
  within(leftWall, 0.9, 0.24, 0.24)(0),
  [49, 82.6],
  within(rightWall, 0.3, 0.46, 0.46)(0),
]);
