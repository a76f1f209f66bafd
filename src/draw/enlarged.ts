import type { Drawing, Mark, Point, Stroke } from './drawing.js';

/** The same drawing, larger in all its parts: for one that has no scale to keep. */
export function enlarged({ width, height, marks }: Drawing, times: number): Drawing {
  return { width: width * times, height: height * times, marks: marks.map(larger(times)) };
}

const larger = (times: number) => {
  const point = ([x, y]: Point): Point => [x * times, y * times];
  const pen = ({ colour, width, dash }: Stroke): Stroke => ({
    colour,
    width: width * times,
    ...(dash && { dash: dash.map((length) => length * times) }),
  });
  return (mark: Mark): Mark => {
    switch (mark.kind) {
      case 'line':
        return { ...mark, points: mark.points.map(point), stroke: pen(mark.stroke) };
      case 'area':
        return {
          ...mark,
          points: mark.points.map(point),
          ...(mark.stroke && { stroke: pen(mark.stroke) }),
        };
      case 'circle':
        return {
          ...mark,
          centre: point(mark.centre),
          radius: mark.radius * times,
          ...(mark.stroke && { stroke: pen(mark.stroke) }),
        };
      case 'text':
        return { ...mark, at: point(mark.at), size: mark.size * times };
    }
  };
};
