import type { Drawing, Mark, Point } from './drawing.js';
import { inks } from './inks.js';
import { rectangle, text } from './lettering.js';
import { textWidth } from './text-width.js';

/** A syringe and what is to be drawn up into it. */
export interface SyringePicture {
  /** What it holds, the step of its scale and what is to be drawn up, all in mL. */
  readonly capacity: number;
  readonly graduation: number;
  readonly amount: number;
  /** The amount in words, at the line to fill to. */
  readonly label: string;
  /** How a number of the scale is written. */
  readonly written: (millilitres: number) => string;
}

// Lengths in mm. Every syringe is drawn alike, whatever it holds: the scale is true within itself, not to the paper.
const height = 15;
const zero = 7.5;
const scale = 44;
const barrel = { top: 5.2, bottom: 11.2, end: zero + scale + 1.5 } as const;
const middle = (barrel.top + barrel.bottom) / 2;
const numberSize = 2.6;
const labelSize = 3.3;
const stopper = 2.2;
/** How far a full syringe's rod is shown to stand out beyond an empty one's. */
const drawnOut = 14;

/** A syringe lying with its tip to the left, its plunger at the line to fill to. */
export function syringe(picture: SyringePicture): Drawing {
  const { capacity, graduation, amount, label } = picture;
  const at = (millilitres: number) => zero + (scale * millilitres) / capacity;
  const line = at(amount);
  const rodEnd = barrel.end + 3.4 + (drawnOut * amount) / capacity;
  const half = textWidth(label, labelSize) / 2;
  return {
    width: barrel.end + 3.4 + drawnOut + 1.5,
    height,
    marks: [
      ...tip(),
      area(rectangle(zero, barrel.top, line - zero, barrel.bottom - barrel.top), inks.gridFine),
      area(rectangle(line, middle - 1.1, rodEnd - line, 2.2), inks.paper, 0.3),
      area(rectangle(rodEnd, middle - 2.6, 1, 5.2), inks.ink),
      area(rectangle(line, barrel.top, stopper, barrel.bottom - barrel.top), inks.ink),
      outline(),
      area(rectangle(barrel.end - 0.5, barrel.top - 1.3, 0.9, 8.6), inks.ink),
      ...stepsOf(capacity, graduation).flatMap((step) => graduationMark(step, at, picture)),
      ...pointer(line),
      text([Math.max(half, line), labelSize * 0.82], label, {
        size: labelSize,
        weight: 'bold',
        align: 'middle',
        colour: inks.ink,
      }),
    ],
  };
}

/** Every step of the scale but the first, in mL, free of the dust of binary fractions. */
const stepsOf = (capacity: number, graduation: number): number[] =>
  Array.from({ length: Math.round(capacity / graduation) }, (_, i) =>
    Number(((i + 1) * graduation).toFixed(4)),
  );

/** From one number of the scale to the next: at most six numbers on any syringe. */
const numbered = (capacity: number): number =>
  [0.2, 0.5, 1, 2, 5, 10].find((step) => capacity / step <= 6) ?? capacity;

function graduationMark(
  step: number,
  at: (millilitres: number) => number,
  { capacity, graduation, written }: SyringePicture,
): Mark[] {
  const every = numbered(capacity);
  const isWhole = (part: number) => Math.abs(step / part - Math.round(step / part)) < 1e-6;
  const long = isWhole(every);
  const x = at(step);
  // A scale of a hundred lines has longer ones in between to count by.
  const between = capacity / graduation > 60 && isWhole(every / 4);
  const length = long ? 3 : between ? 2.2 : 1.4;
  const fine = capacity / graduation > 60 && !long ? 0.09 : 0.16;
  const mark = lineOf(
    [
      [x, barrel.bottom],
      [x, barrel.bottom - length],
    ],
    long ? 0.25 : fine,
  );
  return long
    ? [
        mark,
        text([x, barrel.bottom + numberSize * 1.1], written(step), {
          size: numberSize,
          align: 'middle',
          colour: inks.ink,
        }),
      ]
    : [mark];
}

/** An arrow on the line to fill to, which runs across the barrel. */
const pointer = (x: number): Mark[] => [
  area(
    [
      [x - 1, labelSize + 0.2],
      [x + 1, labelSize + 0.2],
      [x, barrel.top],
    ],
    inks.accent,
  ),
  lineOf(
    [
      [x, barrel.top],
      [x, barrel.bottom + 0.6],
    ],
    0.5,
    inks.accent,
  ),
];

const tip = (): Mark[] => [
  area(
    [
      [1, middle - 0.5],
      [5, middle - 0.8],
      [5.6, barrel.top + 1.6],
      [zero, barrel.top],
      [zero, barrel.bottom],
      [5.6, barrel.bottom - 1.6],
      [5, middle + 0.8],
      [1, middle + 0.5],
    ],
    inks.gridFine,
    0.3,
  ),
];

const outline = (): Mark => ({
  kind: 'line',
  points: [
    [barrel.end, barrel.top],
    [zero, barrel.top],
    [zero, barrel.bottom],
    [barrel.end, barrel.bottom],
  ],
  stroke: { colour: inks.ink, width: 0.3 },
});

const area = (points: readonly Point[], fill: string, width?: number): Mark => ({
  kind: 'area',
  points,
  fill,
  ...(width !== undefined && { stroke: { colour: inks.ink, width } }),
});

const lineOf = (points: readonly Point[], width: number, colour: string = inks.ink): Mark => ({
  kind: 'line',
  points,
  stroke: { colour, width },
});
