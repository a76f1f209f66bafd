import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { hair, lettered, line, pen, WIDTH } from './pointed.js';

/** The names of the three pressures and of the axis. */
export interface PressureWaveWords {
  readonly systolic: string;
  readonly mean: string;
  readonly diastolic: string;
  readonly time: string;
}

const HEIGHT = 46;
const left = 4;
const right = 62;
const top = 7;
const bottom = 36;
const beats = 2;

/**
 * Pressure over one beat, 0 at its lowest and 1 at its peak, `phase` from 0 to 1: a fast rise, a slow fall and the small
 * wave of the closing valve. A picture of the form, not a measured pressure.
 */
export function pulseShape(phase: number): number {
  const raw = (u: number) => {
    const rise = 1 / (1 + Math.exp(-(u - 0.075) / 0.018));
    const fall = Math.exp(-Math.max(0, u - 0.12) / 0.3);
    const valve = 0.09 * Math.exp(-((u - 0.43) ** 2) / (2 * 0.035 ** 2));
    const notch = 0.07 * Math.exp(-((u - 0.34) ** 2) / (2 * 0.025 ** 2));
    return rise * (fall + valve - notch);
  };
  // The fall ends where the next rise begins.
  const end = raw(1);
  const begin = raw(0);
  return raw(phase) - begin - (end - begin) * phase ** 3;
}

/** Two beats of arterial pressure with its highest, lowest and mean value; as much lies above the mean as below it. */
export function pressureWave(words: PressureWaveWords): Drawing {
  const steps = 150;
  const values = Array.from({ length: steps + 1 }, (_, i) => pulseShape(i / steps));
  const low = Math.min(...values);
  const high = Math.max(...values);
  const mean = meanOf(values);
  const y = (value: number) => bottom - ((value - low) / (high - low)) * (bottom - top);
  const wide = (right - left) / beats;
  const curve: Point[] = Array.from({ length: beats }, (_, beat) =>
    values.slice(0, steps).map((value, i): Point => [left + (beat + i / steps) * wide, y(value)]),
  ).flat();
  const level = (value: number, words: string, stroke = hair): Mark[] => [
    line(
      [
        [left, y(value)],
        [right + 2, y(value)],
      ],
      stroke,
    ),
    ...lettered([right + 3.2, y(value) + 1], words, { room: WIDTH - right - 3.4 }),
  ];
  return {
    width: WIDTH,
    height: HEIGHT,
    marks: [
      ...parts(curve, y(mean)),
      ...level(high, words.systolic),
      ...level(mean, words.mean, { colour: inks.accent, width: 0.5 }),
      ...level(low, words.diastolic),
      line(curve, { ...pen, width: 0.55 }),
      ...lettered([(left + right) / 2, HEIGHT - 2.5], words.time, {
        room: right - left,
        align: 'middle',
        colour: inks.soft,
      }),
    ],
  };
}

const meanOf = (values: readonly number[]): number =>
  values.slice(1).reduce((sum, value, i) => sum + (value + (values[i] as number)) / 2, 0) /
  (values.length - 1);

/** What lies above the mean is filled, what lies below it is hatched: told apart without colour. */
function parts(curve: readonly Point[], level: number): Mark[] {
  const above: Point[] = curve.map(([x, y]) => [x, Math.min(y, level)]);
  const [first, last] = [curve[0] as Point, curve.at(-1) as Point];
  const strokes = curve
    .filter(([, y], i) => i % 6 === 3 && y > level + 0.3)
    .map(([x, y]) =>
      line(
        [
          [x, level],
          [x, y],
        ],
        { colour: inks.faint, width: 0.15 },
      ),
    );
  return [
    {
      kind: 'area',
      points: [[first[0], level], ...above, [last[0], level]],
      fill: inks.gridBold,
    },
    ...strokes,
  ];
}
