import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { closed, cover, fine, hairs, outline, picture, shape, smooth } from './pen.js';

// Coordinates of a picture drawn by hand: not clinical numbers.

/** A bandage around a part of the body that could be any, and a drop of water struck out. */
export function dryBandage(): Drawing {
  drawn ??= picture([...bandaged(), ...noWater()]);
  return drawn;
}

let drawn: Drawing | null = null;

function bandaged(): Mark[] {
  const upper = smooth([
    [0.3, 4.4],
    [3.4, 4.8],
    [6.8, 4.6],
    [10.2, 4.6],
    [13.6, 4.9],
  ]);
  const lower = smooth([
    [0.3, 12.6],
    [3.4, 12.1],
    [6.8, 12.1],
    [10.2, 12.2],
    [13.6, 12.4],
  ]);
  const turn = (x: number): Point[] =>
    smooth([
      [x, 4.1],
      [x + 0.9, 6.4],
      [x + 1, 9.6],
      [x + 0.1, 12.7],
    ]);
  const wrap = closed([
    [3, 4.1],
    [6.6, 3.9],
    [10.6, 4.1],
    [11.5, 6.6],
    [11.6, 9.8],
    [10.7, 12.8],
    [7, 12.9],
    [3, 12.7],
    [3.9, 9.6],
    [3.8, 6.4],
  ]);
  return [
    cover([...upper, ...[...lower].reverse()]),
    outline(upper),
    outline(lower),
    ...hairs(
      [
        [0.8, 6],
        [1.8, 7.8],
        [0.9, 9.6],
        [1.9, 11],
        [12.4, 6.4],
        [12.6, 8.6],
        [12.4, 10.8],
      ],
      [0.7, 0.25],
    ),
    shape(wrap),
    ...[4.8, 6.6, 8.4].map((x) => outline(turn(x))),
    // The weave.
    ...[3.9, 5.7, 7.5, 9.3].flatMap((x) =>
      [5.6, 7, 8.4, 9.8, 11.2].map((y) =>
        fine([
          [x + 0.65, y],
          [x + 1.25, y + 0.15],
        ]),
      ),
    ),
    // The end, held by a strip.
    shape(
      closed([
        [8.7, 7.6],
        [11.6, 7.9],
        [11.6, 9.2],
        [8.7, 8.9],
      ]),
      inks.shade,
    ),
  ];
}

function noWater(): Mark[] {
  const drop = closed([
    [17.4, 3],
    [18.3, 5],
    [19.5, 7],
    [19.3, 9],
    [17.4, 9.9],
    [15.5, 9],
    [15.3, 7],
    [16.5, 5],
  ]);
  return [
    shape(drop),
    fine(
      smooth([
        [16.3, 7.4],
        [16.4, 8.4],
        [17.1, 9],
      ]),
    ),
    {
      kind: 'line',
      points: [
        [14.3, 11.2],
        [20.5, 2.6],
      ],
      stroke: { colour: inks.paper, width: 1.5 },
    },
    {
      kind: 'line',
      points: [
        [14.3, 11.2],
        [20.5, 2.6],
      ],
      stroke: { colour: inks.ink, width: 0.7 },
    },
  ];
}
