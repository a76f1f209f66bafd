import type { Mark, Point, Stroke } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { wrapped } from '../text-width.js';

/** Width of a drawing that explains, mm: a telephone held upright shows it without scrolling. */
export const WIDTH = 88;

/** Em square of the words in explaining drawings, mm. Not a clinical number. */
export const LETTER = 3.1;
/** From line to line of the words in explaining drawings, mm. Not a clinical number. */
export const LEADING = 3.7;

/** The stroke of what a drawing shows. */
export const pen: Stroke = { colour: inks.ink, width: 0.4 };
/** The stroke of what only helps to read it. */
export const hair: Stroke = { colour: inks.soft, width: 0.2 };
/** The stroke of what it is about. */
export const accent: Stroke = { colour: inks.accent, width: 0.5 };

/** A line through points in mm. */
export const line = (points: readonly Point[], stroke: Stroke): Mark => ({
  kind: 'line',
  points,
  stroke,
});

/** Words in lines one below the other; `at` is the anchor on the first baseline. */
export function lettered(
  [x, y]: Point,
  words: string,
  how: {
    readonly room: number;
    readonly align?: 'start' | 'middle' | 'end';
    readonly bold?: boolean;
    readonly colour?: string;
  },
): Mark[] {
  const lines = wrapped(words, LETTER, how.room);
  if (!lines) throw new Error(`a word of ${JSON.stringify(words)} is wider than ${how.room} mm`);
  return lines.map((one, i) =>
    text([x, y + i * LEADING], one, {
      size: LETTER,
      align: how.align ?? 'start',
      colour: how.colour ?? inks.ink,
      ...(how.bold && { weight: 'bold' as const }),
    }),
  );
}

/** A line with a bar at each end, across or down: from here to there. */
export function span(from: Point, to: Point, stroke: Stroke = hair, bar = 0.9): Mark[] {
  const level = Math.abs(from[1] - to[1]) < 1e-9;
  const end = ([x, y]: Point): Point[] =>
    level
      ? [
          [x, y - bar],
          [x, y + bar],
        ]
      : [
          [x - bar, y],
          [x + bar, y],
        ];
  return [line([from, to], stroke), line(end(from), stroke), line(end(to), stroke)];
}

/** A line with a point at its end. */
export function arrow([ax, ay]: Point, [bx, by]: Point, stroke: Stroke, head = 1.1): Mark[] {
  const length = Math.hypot(bx - ax, by - ay);
  const [dx, dy] = [(bx - ax) / length, (by - ay) / length];
  const barb = (side: 1 | -1): Point => [
    bx - dx * head - side * dy * head * 0.55,
    by - dy * head + side * dx * head * 0.55,
  ];
  return [
    line(
      [
        [ax, ay],
        [bx, by],
      ],
      stroke,
    ),
    { kind: 'area', points: [[bx, by], barb(1), barb(-1)], fill: stroke.colour },
  ];
}

/** A thin line from words to what they speak of, with a dot at its end, on a white seam. */
export function pointer(from: Point, to: Point): Mark[] {
  return [
    line([from, to], { colour: inks.paper, width: 0.62 }),
    line([from, to], { colour: inks.ink, width: 0.17 }),
    { kind: 'circle', centre: to, radius: 0.68, fill: inks.paper },
    { kind: 'circle', centre: to, radius: 0.42, fill: inks.ink },
  ];
}
