import type { Mark, Point } from './drawing.js';

/** The same marks, `x` mm to the right and `y` mm down. */
export function moved(marks: readonly Mark[], x: number, y: number): Mark[] {
  const to = ([left, top]: Point): Point => [left + x, top + y];
  return marks.map((mark) => placed(mark, to));
}

function placed(mark: Mark, to: (point: Point) => Point): Mark {
  switch (mark.kind) {
    case 'line':
    case 'area':
      return { ...mark, points: mark.points.map(to) };
    case 'circle':
      return { ...mark, centre: to(mark.centre) };
    case 'text':
      return { ...mark, at: to(mark.at) };
  }
}
