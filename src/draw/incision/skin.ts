import { bent, blob, looseGrid, sampled, scattered } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';

/** A patch of coat with the shaved skin in its middle, in mm. */
const patch = {
  centre: [21.6, 15.9] as Point,
  /** Half width and half height of the shaved skin, and of the coat around it. */
  skin: [18.2, 11.4] as Point,
  coat: [21.4, 15] as Point,
} as const;

/** How far out a point lies: below 1 on shaved skin, 1 at its edge. */
const outward = ([x, y]: Point, [rx, ry]: Point): number =>
  Math.hypot((x - patch.centre[0]) / rx, (y - patch.centre[1]) / ry);

/** Where the clipped coat begins: not quite an ellipse, as clippers leave it. */
const clipped = (angle: number) =>
  1 + 0.035 * Math.sin(3 * angle + 0.6) + 0.02 * Math.sin(5 * angle);

let drawn: readonly Mark[] | null = null;

/** Shaved skin, and hairs that lie the way a coat does, darker at the edge and thinner further out: the same on every sheet. */
export function skinPatch(): readonly Mark[] {
  drawn ??= drawPatch();
  return drawn;
}

function drawPatch(): Mark[] {
  const skin: Mark = {
    kind: 'area',
    points: blob(patch.centre, patch.skin, clipped),
    fill: inks.tint,
  };
  const [cx, cy] = patch.centre;
  const [rx, ry] = patch.coat;
  const hairs = looseGrid([cx - rx, cy - ry], [cx + rx, cy + ry], 1.5, 7).flatMap(
    (root): Mark[] => {
      const edge = outward(root, patch.skin) / clipped(Math.atan2(root[1] - cy, root[0] - cx));
      const end = outward(root, patch.coat);
      if (edge < 1 || end > 1) return [];
      return [hair(root, 1 - (1 - end) / (1 - end + Math.max(edge - 1, 1e-6)))];
    },
  );
  return [skin, ...hairs];
}

/** One hair; `far` is 0 at the shaved edge and 1 at the outer one. */
function hair(root: Point, far: number): Mark {
  const [x, y] = root;
  const lean = 0.3 + 0.35 * (scattered(x, y) - 0.5) + 0.012 * (y - patch.centre[1]);
  const length = 2.5 - 0.9 * far + 0.5 * scattered(y, x);
  const tip: Point = [x + length * Math.cos(lean), y + length * Math.sin(lean)];
  const bow: Point = [
    (x + tip[0]) / 2 + 0.35 * Math.sin(lean),
    (y + tip[1]) / 2 - 0.35 * Math.cos(lean),
  ];
  return {
    kind: 'line',
    points: sampled(bent(root, bow, tip), 4),
    stroke: { colour: far > 0.55 ? inks.rule : inks.faint, width: 0.2 - 0.07 * far },
  };
}

/**
 * Redness as dots, dense near the wound and fewer further off, so that it also shows in black and white.
 * @param from distance of a point from the wound in mm
 */
export function redness(
  from: (point: Point) => number,
  reach: number,
  step: number,
  colour: string = inks.soft,
): Mark[] {
  const [cx, cy] = patch.centre;
  const [rx, ry] = patch.skin;
  return looseGrid([cx - rx, cy - ry], [cx + rx, cy + ry], step, 3).flatMap((point): Mark[] => {
    const off = from(point);
    const near = 1 - off / reach;
    const keep = scattered(point[0] * 3.3, point[1] * 1.7) < near;
    if (off < 0.5 || near <= 0 || !keep || outward(point, patch.skin) > 0.96) return [];
    return [{ kind: 'circle', centre: point, radius: 0.1 + 0.12 * near, fill: colour }];
  });
}

/** A drop that hangs from a point, with a glint. */
export function drop([x, y]: Point, size: number, fill: string): Mark[] {
  const outline: Point[] = Array.from({ length: 33 }, (_, i) => {
    const a = (2 * Math.PI * i) / 32;
    const narrow = Math.sin(a / 2) ** 1.5;
    return [x + size * 0.62 * Math.sin(a) * narrow, y + size * (1 - Math.cos(a))];
  });
  return [
    { kind: 'area', points: outline, fill, stroke: { colour: inks.ink, width: 0.25 } },
    {
      kind: 'line',
      points: sampled(
        bent(
          [x - size * 0.3, y + size * 1.25],
          [x - size * 0.36, y + size * 1.62],
          [x - size * 0.08, y + size * 1.74],
        ),
        5,
      ),
      stroke: { colour: inks.faint, width: 0.2 },
    },
  ];
}
