import type { Mark, Point, Stroke } from './drawing.js';

/** A rectangle, its sides in mm from the left and the top of the drawing. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

/** Lines rising to the right at 45 degrees, `step` mm apart along the x axis, cut at the box, and the box's outline. */
export function hatch(box: Box, step: number, stroke: Stroke): Mark[] {
  const { left, top, right, bottom } = box;
  const height = bottom - top;
  const marks: Mark[] = [];
  for (let foot = left - height + step; foot < right; foot += step) {
    const from: Point = foot < left ? [left, bottom - (left - foot)] : [foot, bottom];
    const head = foot + height;
    const to: Point = head > right ? [right, top + (head - right)] : [head, top];
    marks.push({ kind: 'line', points: [from, to], stroke });
  }
  const outline: Point[] = [
    [left, top],
    [right, top],
    [right, bottom],
    [left, bottom],
    [left, top],
  ];
  return [...marks, { kind: 'line', points: outline, stroke }];
}
