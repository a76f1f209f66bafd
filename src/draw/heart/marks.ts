import type { Mark, Part, Point, Stroke } from '../drawing.js';
import { heartInks } from './inks.js';

/** Pens and short hands that the pieces of the heart share. */
export const contour: Stroke = { colour: heartInks.outline, width: 0.4 };
/** The edge of a thin part. */
export const fine: Stroke = { colour: heartInks.outline, width: 0.25 };
/** The leaf of a valve. */
export const leaflet: Stroke = { colour: heartInks.outline, width: 0.8 };

/** A filled part of the heart that the page can find by its name; its points are in mm. */
export const area = (
  points: readonly Point[],
  fill: string,
  part: Part,
  stroke?: Stroke,
): Mark => ({
  kind: 'area',
  points,
  fill,
  part,
  ...(stroke && { stroke }),
});

/** A line of the heart that the page can find by its name; its points are in mm. */
export const line = (points: readonly Point[], stroke: Stroke, part: Part): Mark => ({
  kind: 'line',
  points,
  stroke,
  part,
});

/** The outline of a part, from its last point back to its first. */
export const closedLine = (points: readonly Point[], stroke: Stroke): Mark =>
  line([...points, points[0] as Point], stroke, { name: 'outline' });
