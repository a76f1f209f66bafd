import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { closed, cover, eye, fine, hairs, outline, picture, shape, smooth } from './pen.js';

// Coordinates of a picture drawn by hand: not clinical numbers.

/** A rabbit from its left side, at its hay, a stalk in its mouth. */
export function eatingHay(): Drawing {
  drawn ??= picture([...heap(), ...rabbit(), ...stalks()]);
  return drawn;
}

let drawn: Drawing | null = null;

function rabbit(): Mark[] {
  const body = closed([
    [7.6, 10.4],
    [9.2, 8.9],
    [10.8, 7.6],
    [13.4, 6.9],
    [16.2, 7.7],
    [18.2, 10],
    [18.8, 12.6],
    [18, 14.6],
    [14.6, 15.1],
    [10.6, 15],
    [8.8, 14.2],
    [8.2, 12.6],
  ]);
  const head = closed([
    [4.4, 9.9],
    [5.2, 8.6],
    [6.8, 7.4],
    [8.6, 7.2],
    [10, 8.2],
    [10.2, 9.9],
    [9, 11.3],
    [7, 11.7],
    [5.2, 11.4],
  ]);
  const farEar = closed([
    [8.2, 7.4],
    [8.6, 4.6],
    [10, 2.2],
    [11, 2.4],
    [10.6, 4.6],
    [9.4, 7.4],
  ]);
  const nearEar = closed([
    [8.9, 7.6],
    [10.2, 4.8],
    [12.3, 2.8],
    [13.2, 3.4],
    [12.2, 5.6],
    [10.1, 8],
  ]);
  return [
    // The tail.
    shape(
      closed([
        [18.2, 11.6],
        [19.4, 10.9],
        [20.4, 11.8],
        [20.1, 13.2],
        [18.7, 13.4],
      ]),
    ),
    shape(body),
    // Haunch and hind foot.
    outline(
      smooth([
        [13.6, 12.6],
        [14, 10.6],
        [16, 9.8],
        [17.8, 11.2],
        [18, 13.4],
        [16.8, 14.6],
      ]),
    ),
    shape(
      closed([
        [12.4, 14.5],
        [14.4, 14],
        [16.6, 14.3],
        [16.6, 15.2],
        [13.2, 15.3],
      ]),
    ),
    // Fore foot.
    shape(
      closed([
        [7.9, 14.5],
        [9.4, 14],
        [10.4, 14.4],
        [10.2, 15.2],
        [8.2, 15.2],
      ]),
    ),
    shape(farEar),
    shape(head),
    shape(nearEar),
    cover(
      closed([
        [9.8, 6.9],
        [10.9, 5.1],
        [12.2, 3.8],
        [11.6, 5.4],
        [10.3, 7.2],
      ]),
      inks.shade,
    ),
    ...eye([7.2, 8.9], 0.5),
    // Nose, mouth and cheek.
    fine(
      smooth([
        [4.5, 9.7],
        [5, 9.9],
        [5.2, 10.3],
      ]),
    ),
    fine(
      smooth([
        [5.2, 10.3],
        [6, 10.9],
        [6.9, 10.9],
      ]),
    ),
    fine(
      smooth([
        [6, 9.9],
        [4.6, 8.6],
        [3.2, 8.2],
      ]),
    ),
    fine(
      smooth([
        [6, 10.1],
        [4.4, 9.3],
        [2.8, 9.2],
      ]),
    ),
    ...hairs(
      [
        [12, 9],
        [14.2, 8.6],
        [11.2, 11.2],
        [12.2, 13],
      ],
      [0.8, 0.4],
    ),
  ];
}

/** Stalks lie crosswise on one another. */
function heap(): Mark[] {
  const mound = closed([
    [0.6, 15.2],
    [1.4, 13.4],
    [3.2, 12.2],
    [5.4, 12.4],
    [7.4, 13.8],
    [8.2, 15.2],
    [4.4, 15.4],
  ]);
  const ends: readonly (readonly [Point, Point, Point])[] = [
    [
      [0.4, 14.8],
      [3, 12.6],
      [6.4, 12.2],
    ],
    [
      [0.8, 12.8],
      [3.2, 13.8],
      [7.6, 15],
    ],
    [
      [1.4, 15.2],
      [4.4, 13.2],
      [7.8, 13.2],
    ],
    [
      [0.2, 13.8],
      [3.6, 14.6],
      [7.2, 14.2],
    ],
    [
      [2.4, 11.6],
      [4, 13.4],
      [6.4, 15.2],
    ],
    [
      [1, 15.4],
      [2.2, 13.4],
      [3.4, 11.6],
    ],
    [
      [4.2, 15.4],
      [5.4, 13.4],
      [6.8, 11.9],
    ],
    [
      [0.4, 15],
      [4.6, 15.1],
      [8.4, 14.6],
    ],
  ];
  return [cover(mound), ...ends.map((points) => fine(smooth(points)))];
}

/** What it is just eating. */
const stalks = (): Mark[] => [
  fine(
    smooth([
      [5, 10.7],
      [3.4, 11.2],
      [1.8, 11],
    ]),
  ),
  fine(
    smooth([
      [5, 10.8],
      [3.8, 11.8],
      [2.6, 12.2],
    ]),
  ),
];
