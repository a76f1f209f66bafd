import { sampled } from '../curve.js';
import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { closed, cover, ellipse, eye, fine, outline, picture, shape, smooth } from './pen.js';

/** Whose head is drawn. */
export type Wearer = 'dog' | 'cat' | 'ferret';

/** A head from its left side, and the cone that goes with it. Coordinates of pictures drawn by hand: not clinical numbers. */
interface Head {
  /** From the back of the neck over skull, nose and jaw to the chest. */
  readonly profile: readonly Point[];
  readonly features: readonly Mark[];
  /** What hangs or stands before everything else of the head. */
  readonly ear: readonly Mark[];
  readonly cone: Cone;
}

interface Cone {
  readonly neck: Point;
  readonly rim: Point;
  /** Half the height of each end, and half the width at which its round is seen. */
  readonly narrow: Point;
  readonly wide: Point;
}

const drawn = new Map<Wearer, Drawing>();

/** A head within its protective collar: the cone is clear, so that the face shows through it. Each is drawn once. */
export function collarOn(wearer: Wearer): Drawing {
  const before = drawn.get(wearer);
  if (before) return before;
  const made = headInCone(wearer);
  drawn.set(wearer, made);
  return made;
}

function headInCone(wearer: Wearer): Drawing {
  const { profile, features, ear, cone } = HEADS[wearer];
  const lean = Math.atan2(cone.rim[1] - cone.neck[1], cone.rim[0] - cone.neck[0]) + Math.PI;
  const rim = ellipse(cone.rim, cone.wide, lean);
  const band = ellipse(cone.neck, cone.narrow, lean);
  const skin = smooth(profile);
  const nearBand = sampled(band, 18, -0.25, 0.25);
  return picture([
    cover([...sampled(rim, 24, 0.25, 0.75), ...nearBand]),
    // The far side of the rim, behind the head; one looks a little into the cone.
    outline(sampled(rim, 24, 0.25, 0.75)),
    // As far as the band: what is behind it is no more than two lines, and stands on whatever the sheet has there.
    cover(skin.filter(([x]) => x <= cone.neck[0])),
    outline(skin),
    ...features,
    ...ear,
    fine(sampled(rim, 24, -0.25, 0.25)),
    outline([band(0.25), rim(0.25)]),
    outline([band(0.75), rim(0.75)]),
    // The near side of the band around the neck.
    {
      kind: 'line',
      points: nearBand,
      stroke: { colour: inks.ink, width: 0.8 },
    },
    // Light on the clear wall.
    fine(between(band, rim, 0.82, [0.5, 0.85])),
    fine(between(band, rim, 0.18, [0.45, 0.85])),
  ]);
}

/** A line along the wall of the cone at one place of its round. */
function between(
  band: (t: number) => Point,
  rim: (t: number) => Point,
  t: number,
  [from, to]: readonly [number, number],
): Point[] {
  const [a, b] = [band(t), rim(t)];
  return [from, to].map((u): Point => [a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u]);
}

const HEADS: Readonly<Record<Wearer, Head>> = {
  dog: {
    profile: [
      [20.9, 8.7],
      [18.6, 6.6],
      [16.4, 5.3],
      [14.2, 4.5],
      [12.2, 4.1],
      [10.3, 4.9],
      [9.2, 6.3],
      [7, 7.2],
      [5.1, 7.7],
      [4.5, 8.5],
      [4.9, 9.5],
      [5.6, 10.4],
      [7, 11],
      [9.6, 11.5],
      [12, 11.9],
      [14.2, 12.5],
      [16, 13.3],
      [17.5, 14.5],
      [18.2, 15.8],
    ],
    features: [
      cover(
        closed([
          [4.5, 7.9],
          [5.5, 7.6],
          [5.7, 8.3],
          [5, 8.8],
          [4.4, 8.6],
        ]),
        inks.ink,
      ),
      fine(
        smooth([
          [5.1, 9.6],
          [6.6, 9.8],
          [8.2, 9.9],
          [9.3, 9.4],
        ]),
      ),
      ...eye([9.7, 6.9], 0.45),
      fine(
        smooth([
          [9, 6.2],
          [9.6, 5.8],
          [10.4, 6],
        ]),
      ),
    ],
    ear: [
      shape(
        closed([
          [11.6, 5],
          [13.1, 5],
          [14.2, 7],
          [14.6, 9.8],
          [13.8, 11.3],
          [12.5, 10.4],
          [11.7, 8.2],
        ]),
        inks.shade,
      ),
    ],
    cone: { neck: [16, 9.2], rim: [3.9, 7.9], narrow: [1.1, 4.1], wide: [1.9, 7.5] },
  },
  cat: {
    profile: [
      [20.9, 9.7],
      [18.6, 7.7],
      [16.4, 6.5],
      [14.4, 5.8],
      [12.4, 5.1],
      [10.5, 5.4],
      [9.1, 6.5],
      [8, 7.8],
      [7.5, 8.7],
      [7.8, 9.3],
      [8.3, 9.8],
      [8.5, 10.5],
      [9.3, 11.3],
      [11, 11.8],
      [12.8, 12.1],
      [14.6, 12.7],
      [16.3, 13.6],
      [17.6, 14.8],
      [18.2, 15.8],
    ],
    features: [
      cover(
        closed([
          [7.4, 8.5],
          [8.2, 8.3],
          [8.2, 8.9],
          [7.7, 9.1],
        ]),
        inks.ink,
      ),
      fine(
        smooth([
          [8.2, 9.7],
          [8.9, 10.1],
          [9.8, 9.9],
        ]),
      ),
      shape(
        closed([
          [9.4, 7.7],
          [10.1, 7.1],
          [10.9, 7.3],
          [10.6, 8],
          [9.9, 8.2],
        ]),
      ),
      cover(
        closed([
          [10, 7.2],
          [10.3, 7.2],
          [10.25, 8.1],
          [9.95, 8.1],
        ]),
        inks.ink,
      ),
      fine(
        smooth([
          [9, 9.3],
          [6.8, 9],
          [5.2, 9.3],
        ]),
      ),
      fine(
        smooth([
          [9, 9.6],
          [7, 9.9],
          [5.4, 10.7],
        ]),
      ),
    ],
    ear: [
      shape(
        smooth([
          [10.6, 5.5],
          [10.9, 4.2],
          [11.9, 2.9],
          [13.1, 4.1],
          [13.6, 5.7],
        ]),
      ),
      fine(
        smooth([
          [11.4, 5.1],
          [11.9, 3.9],
          [12.5, 4.9],
        ]),
      ),
    ],
    cone: { neck: [16, 9.8], rim: [5, 8], narrow: [1.1, 4.1], wide: [1.9, 7.6] },
  },
  ferret: {
    profile: [
      [20.9, 9.8],
      [18.4, 7.9],
      [16.2, 6.8],
      [14.2, 6],
      [12.2, 5.7],
      [10.2, 6.2],
      [8.2, 7.2],
      [6.6, 8],
      [6, 8.7],
      [6.3, 9.4],
      [7, 9.9],
      [8.6, 10.5],
      [11, 11],
      [13, 11.4],
      [15, 12.2],
      [16.7, 13.4],
      [17.8, 14.8],
      [18.3, 15.8],
    ],
    features: [
      cover(
        closed([
          [6, 8.4],
          [6.8, 8.1],
          [6.9, 8.7],
          [6.3, 9],
        ]),
        inks.ink,
      ),
      fine(
        smooth([
          [6.7, 9.6],
          [7.8, 9.7],
          [8.8, 9.4],
        ]),
      ),
      // The mask.
      cover(
        closed([
          [8.6, 7.5],
          [9.8, 6.9],
          [11.2, 7.3],
          [11, 8.4],
          [9.6, 8.8],
          [8.6, 8.4],
        ]),
        inks.rule,
      ),
      ...eye([9.8, 7.8], 0.45),
      fine(
        smooth([
          [7.8, 9],
          [5.9, 8.9],
          [4.8, 9.4],
        ]),
      ),
      fine(
        smooth([
          [7.9, 9.2],
          [6.4, 9.9],
          [5.4, 10.8],
        ]),
      ),
    ],
    ear: [
      shape(
        closed([
          [12.1, 6.4],
          [12.4, 5.1],
          [13.6, 4.9],
          [14.4, 6],
          [13.9, 7.2],
          [12.8, 7.3],
        ]),
      ),
    ],
    cone: { neck: [16, 9.4], rim: [4.8, 8.2], narrow: [1, 3.5], wide: [1.8, 7.2] },
  },
};
