import type { ToldKind } from '../../signal/told-beats.js';
import type { Inks } from './inks.js';

type Path = readonly (readonly [x: number, y: number])[];

const DOWN: Path = [
  [-5, -4],
  [5, -4],
  [0, 5],
];
const UP: Path = [
  [-5, 4],
  [5, 4],
  [0, -5],
];
const SQUARE: Path = [
  [-4.5, -4.5],
  [4.5, -4.5],
  [4.5, 4.5],
  [-4.5, 4.5],
];
const DIAMOND: Path = [
  [0, -5.5],
  [5.5, 0],
  [0, 5.5],
  [-5.5, 0],
];
const HOURGLASS: Path = [
  [-5, -5],
  [5, -5],
  [-5, 5],
  [5, 5],
];

interface Sign {
  /** Null for a ring. */
  readonly path: Path | null;
  readonly filled: boolean;
  readonly ink: 'accent' | 'early' | 'ink';
}

/** A shape for each origin, so that none is told by colour alone. CSS pixels around the middle. */
const SIGNS: Readonly<Record<ToldKind, Sign>> = {
  sinus: { path: DOWN, filled: true, ink: 'accent' },
  'supraventricular premature': { path: DOWN, filled: false, ink: 'early' },
  'ventricular premature': { path: SQUARE, filled: true, ink: 'early' },
  ventricular: { path: SQUARE, filled: false, ink: 'early' },
  'junctional escape': { path: UP, filled: false, ink: 'ink' },
  'ventricular escape': { path: DIAMOND, filled: true, ink: 'ink' },
  fusion: { path: HOURGLASS, filled: true, ink: 'early' },
  aberrant: { path: HOURGLASS, filled: false, ink: 'ink' },
  unclassified: { path: null, filled: false, ink: 'ink' },
  withheld: { path: null, filled: false, ink: 'ink' },
};

export function paintSign(
  context: CanvasRenderingContext2D,
  kind: ToldKind,
  x: number,
  y: number,
  inks: Inks,
): void {
  const { path, filled, ink } = SIGNS[kind];
  context.beginPath();
  if (path === null) context.arc(x, y, 4.3, 0, 2 * Math.PI);
  else for (const [right, down] of path) context.lineTo(x + right, y + down);
  context.closePath();
  context.fillStyle = filled ? inks[ink] : inks.paper;
  context.fill();
  context.strokeStyle = inks[ink];
  context.lineWidth = 1.5;
  context.stroke();
}
