import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';

/**
 * Millimetre paper: fine lines each 1 mm, bold lines each 5 mm. Each set of parallel lines is one path that
 * turns back and forth along the border, so that a strip stays a few marks instead of hundreds.
 */
export function paperGrid(left: number, top: number, across: number, down: number): Mark[] {
  const grid = (step: number, colour: string, width: number): Mark[] => [
    {
      kind: 'line',
      points: backAndForth(across, down, step, left, top),
      stroke: { colour, width },
    },
    {
      kind: 'line',
      points: backAndForth(down, across, step, top, left).map(([y, x]): Point => [x, y]),
      stroke: { colour, width },
    },
  ];
  return [...grid(1, inks.gridFine, 0.1), ...grid(5, inks.gridBold, 0.22)];
}

function backAndForth(across: number, down: number, step: number, left: number, top: number) {
  const points: Point[] = [];
  for (let i = 0; i * step <= across + 1e-6; i++) {
    const x = left + i * step;
    const [first, second] = i % 2 === 0 ? [top, top + down] : [top + down, top];
    points.push([x, first], [x, second]);
  }
  return points;
}
