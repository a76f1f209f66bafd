import { blob, looseGrid, sampled, scattered } from '../curve.js';
import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { LEADING, lettered, line, pen, pointer, WIDTH } from './pointed.js';

/** The names of the layers and of what holds each of them. */
export interface ClosureSectionWords {
  readonly skin: string;
  readonly within: string;
  readonly under: string;
  readonly sheet: string;
  readonly muscle: string;
  readonly lining: string;
}

const HEIGHT = 54;
const left = 2;
const right = 46;
const middle = (left + right) / 2;

/** Heights of the borders between the layers, mm from the top. */
const at = {
  surface: 7,
  dermis: 9.2,
  fat: 15,
  sheet: 33,
  muscle: 34.8,
  lining: 47.5,
  inside: 49,
} as const;

/** A closed cut through skin and body wall seen from the end, with the stitch of each layer. */
export function closureSection(words: ClosureSectionWords): Drawing {
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      ...layers(),
      ...muscle(),
      line(
        [
          [middle, at.surface],
          [middle, at.inside],
        ],
        { ...pen, width: 0.5 },
      ),
      ...stitches(),
      ...labels(words),
    ],
  };
}

const band = (top: number, bottom: number, fill: string): Mark => ({
  kind: 'area',
  points: [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
  ],
  fill,
});

function layers(): Mark[] {
  const across = (y: number, width: number, colour: string = inks.ink): Mark =>
    line(
      [
        [left, y],
        [right, y],
      ],
      { colour, width },
    );
  const fat = looseGrid([left + 1.5, at.fat + 2], [right - 1.5, at.sheet - 1.5], 3.4, 5).flatMap(
    ([x, y]): Mark[] =>
      Math.abs(x - middle) < 2.4
        ? []
        : [
            {
              kind: 'circle',
              centre: [x, y],
              radius: 1.05 + 0.3 * scattered(x, y),
              stroke: { colour: inks.rule, width: 0.2 },
            },
          ],
  );
  return [
    band(at.surface, at.dermis, inks.gridBold),
    band(at.dermis, at.fat, inks.gridFine),
    band(at.fat, at.sheet, inks.paper),
    ...fat,
    across(at.surface, 0.5),
    across(at.dermis, 0.2, inks.soft),
    across(at.fat, 0.3, inks.soft),
    // The sheet that carries the load: the heaviest line of the drawing.
    band(at.sheet, at.muscle, inks.soft),
    across(at.lining, 0.35, inks.soft),
    across(at.inside, 0.2, inks.soft),
    line(
      [
        [left, at.surface],
        [left, at.inside],
      ],
      { colour: inks.rule, width: 0.15 },
    ),
    line(
      [
        [right, at.surface],
        [right, at.inside],
      ],
      { colour: inks.rule, width: 0.15 },
    ),
  ];
}

/** The two straight muscles beside the midline, their fibers cut across. */
function muscle(): Mark[] {
  return [-1, 1].flatMap((side): Mark[] => {
    const centre: Point = [middle + side * 12.2, (at.muscle + at.lining) / 2];
    const radii: Point = [9.2, 5.6];
    const fibers = looseGrid(
      [centre[0] - radii[0], centre[1] - radii[1]],
      [centre[0] + radii[0], centre[1] + radii[1]],
      1.7,
      2,
    ).flatMap(([x, y]): Mark[] =>
      Math.hypot((x - centre[0]) / radii[0], (y - centre[1]) / radii[1]) > 0.86
        ? []
        : [{ kind: 'circle', centre: [x, y], radius: 0.22, fill: inks.faint }],
    );
    return [
      {
        kind: 'area',
        points: blob(centre, radii),
        fill: inks.tint,
        stroke: { colour: inks.soft, width: 0.3 },
      },
      ...fibers,
    ];
  });
}

/** A loop of thread around the cut, with its knot on the side that is given. */
function loop(
  centre: number,
  width: number,
  height: number,
  knot: 'top' | 'bottom',
  deep = 1,
): Mark[] {
  const points = sampled(
    (t) => [
      middle + width * Math.sin(2 * Math.PI * t),
      centre - height * Math.cos(2 * Math.PI * t) * deep,
    ],
    40,
  );
  const end: Point = [middle, knot === 'top' ? centre - height : centre + height];
  const up = knot === 'top' ? -1 : 1;
  const thread = { colour: inks.accent, width: 0.55 };
  return [
    line(points, thread),
    { kind: 'circle', centre: end, radius: 0.75, fill: inks.accent },
    line([end, [end[0] - 1.7, end[1] + up * 1.1]], thread),
    line([end, [end[0] + 1.7, end[1] + up * 1.1]], thread),
  ];
}

function stitches(): Mark[] {
  return [
    ...loop(at.surface + 3.1, 4.6, 3.1, 'top'),
    // Within the skin the knot lies deep.
    ...loop(12.6, 2.3, 1.5, 'bottom'),
    ...loop(22.4, 3.6, 4.2, 'bottom'),
    ...loop(at.sheet + 0.9, 6, 2.6, 'top'),
  ];
}

function labels(words: ClosureSectionWords): Mark[] {
  const x = right + 4.5;
  const room = WIDTH - x - 0.5;
  const rows: readonly (readonly [string, number, Point])[] = [
    [words.skin, 5, [middle + 4.2, at.surface + 1.4]],
    [words.within, 13.2, [middle + 2.2, 12.9]],
    [words.under, 21.4, [middle + 3.5, 22]],
    [words.sheet, 30.4, [middle + 5.9, at.sheet + 0.9]],
    [words.muscle, 41, [middle + 14, 41]],
    [words.lining, 50, [middle + 16, at.lining]],
  ];
  return rows.flatMap(([label, y, target]) => [
    ...pointer([x - 1, y - LETTER_MIDDLE], target),
    ...lettered([x, y], label, { room }),
  ]);
}

/** From a baseline to the middle of its small letters, mm. */
const LETTER_MIDDLE = LEADING * 0.26;
