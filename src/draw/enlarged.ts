import type { Drawing, Mark, Point } from './drawing.js';

/**
 * A drawing made larger as a whole until its smallest letter is `letter` high, but not wider than `widest`; both in mm.
 * One without letters, or with letters that are high enough, stays as it is.
 */
export function enlarged(
  drawing: Drawing,
  { letter, widest }: { readonly letter: number; readonly widest: number },
): Drawing {
  const letters = drawing.marks.flatMap((mark) => (mark.kind === 'text' ? [mark.size] : []));
  if (letters.length === 0) return drawing;
  const by = Math.min(letter / Math.min(...letters), widest / drawing.width);
  if (by <= 1) return drawing;
  return {
    width: drawing.width * by,
    height: drawing.height * by,
    marks: drawing.marks.map((mark) => scaled(mark, by)),
  };
}

/** The same mark, larger or smaller about the top left corner. */
export function scaled(mark: Mark, by: number): Mark {
  const at = ([x, y]: Point): Point => [x * by, y * by];
  if (mark.kind === 'text') return { ...mark, at: at(mark.at), size: mark.size * by };
  const stroke = mark.stroke && {
    stroke: {
      ...mark.stroke,
      width: mark.stroke.width * by,
      ...(mark.stroke.dash && { dash: mark.stroke.dash.map((length) => length * by) }),
    },
  };
  return mark.kind === 'circle'
    ? { ...mark, centre: at(mark.centre), radius: mark.radius * by, ...stroke }
    : { ...mark, points: mark.points.map(at), ...stroke };
}
