import type { Mark, Point } from './drawing.js';

interface Lettering {
  readonly size: number;
  readonly weight?: 'regular' | 'bold';
  readonly align?: 'start' | 'middle' | 'end';
  readonly colour: string;
}

/** Words in a drawing; `at` is their anchor on the baseline, mm. */
export const text = (at: Point, words: string, how: Lettering): Mark => ({
  kind: 'text',
  at,
  text: words,
  size: how.size,
  weight: how.weight ?? 'regular',
  align: how.align ?? 'start',
  colour: how.colour,
});

/** The corners of a rectangle from its upper left one on, mm. */
export const rectangle = (
  x: number,
  y: number,
  width: number,
  height: number,
): readonly Point[] => [
  [x, y],
  [x + width, y],
  [x + width, y + height],
  [x, y + height],
];
