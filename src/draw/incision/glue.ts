import { around, bent, beside, sampled } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { cut } from './cut.js';

/** The film of glue over the cut, with glints; where it lets go, one end has curled up. */
export function film(peeling: boolean): Mark[] {
  const edge = (u: number, side: 1 | -1) =>
    (2.5 + 0.35 * Math.sin(9 * u + side) + 0.2 * Math.sin(17 * u - side)) *
    Math.min(1, (4 * Math.min(u, 1 - u) + 0.12) ** 0.5);
  const part = (from: number, to: number): Mark => ({
    kind: 'area',
    points: around(cut, [from, to], edge),
    fill: inks.paper,
    stroke: { colour: inks.faint, width: 0.28 },
  });
  const glint = (from: number, to: number, off: number): Mark => ({
    kind: 'line',
    points: Array.from({ length: 9 }, (_, i) => beside(cut, from + ((to - from) * i) / 8, off)),
    stroke: { colour: inks.rule, width: 0.35 },
  });
  if (!peeling) {
    return [
      part(-0.03, 1.03),
      glint(0.1, 0.24, -1.4),
      glint(0.29, 0.33, -1.45),
      glint(0.7, 0.84, -1.4),
    ];
  }
  const lift = beside(cut, 0.9, -4.4, 0.6);
  const curl: Point[] = [
    ...sampled(bent(beside(cut, 0.83, -2), beside(cut, 0.78, -5.4), lift), 12),
    ...sampled(bent(lift, beside(cut, 0.93, -3, 0.6), beside(cut, 0.95, -1.8)), 12),
  ];
  return [
    part(-0.03, 0.36),
    part(0.82, 1.03),
    glint(0.06, 0.22, -1.3),
    { kind: 'area', points: curl, fill: inks.paper, stroke: { colour: inks.ink, width: 0.28 } },
  ];
}
