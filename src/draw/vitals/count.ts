import type { Drawing, Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';

/** A strip to count beats on, unmarked; times in s after its first sample. */
export interface CountingStrip {
  /** mV; NaN where there is no valid sample. */
  readonly samples: Float64Array;
  /** Hz. */
  readonly samplingRate: number;
  readonly from: number;
  readonly to: number;
  /** Stretches that are counted, each under a bracket of its own. */
  readonly windows: readonly {
    readonly from: number;
    readonly to: number;
    readonly label: string;
  }[];
  /** mm */
  readonly width: number;
}

/** Seconds in one row: two rows for half a minute, and a beat of a fast heart is still 3 mm wide. Not a clinical number. */
const ROW_SECONDS = 15;
/** mm */
const TRACE_HEIGHT = 13;
const tickRoom = 5;
const bracketRoom = 4.5;
const margin = 1;

/**
 * The trace in long rows with a tick a second, to be counted and not to be measured: time and voltage are not at the scale
 * of ECG paper, so no paper is drawn under it.
 */
export function countingStrip(strip: CountingStrip): Drawing {
  const seconds = Math.min(ROW_SECONDS, strip.to - strip.from);
  const perSecond = (strip.width - 2 * margin) / seconds;
  const [low, high] = extent(strip);
  const marks: Mark[] = [];
  let top = 0.5;
  for (let from = strip.from; strip.to - from > 1e-6; from += seconds) {
    const to = Math.min(strip.to, from + seconds);
    const x = (time: number) => margin + (time - from) * perSecond;
    const windows = strip.windows.filter((one) => one.from < to && one.to > from);
    windows.forEach((window, row) => {
      marks.push(...bracket(window, { from, to, x, y: top + (row + 1) * bracketRoom - 1 }));
    });
    top += windows.length * bracketRoom;
    const y = (value: number) => top + TRACE_HEIGHT * ((high - value) / (high - low));
    for (const points of pieces(strip, from, to, x, y)) {
      marks.push({ kind: 'line', points, stroke: { colour: inks.ink, width: 0.24 } });
    }
    const foot = top + TRACE_HEIGHT + 1;
    marks.push(...ticks(from, to, x, foot));
    top = foot + tickRoom;
  }
  return { width: strip.width, height: top, marks };
}

function extent({ samples, samplingRate, from, to }: CountingStrip): [low: number, high: number] {
  let [low, high] = [0, 0];
  const last = Math.min(samples.length - 1, Math.floor(to * samplingRate));
  for (let i = Math.max(0, Math.ceil(from * samplingRate)); i <= last; i++) {
    const value = samples[i] as number;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return high > low ? [low, high] : [low - 1, high + 1];
}

/** Columns of a tenth of a millimetre, each with its lowest and highest sample. */
const column = 0.1;

interface Held {
  readonly at: number;
  readonly low: Point;
  readonly high: Point;
}

function pieces(
  { samples, samplingRate }: CountingStrip,
  from: number,
  to: number,
  x: (time: number) => number,
  y: (value: number) => number,
): Point[][] {
  const all: Point[][] = [];
  let piece: Point[] = [];
  let held = null as Held | null;
  const flush = () => {
    if (!held) return;
    const { low, high } = held;
    piece.push(...(low[0] <= high[0] ? [low, high] : [high, low]));
    held = null;
  };
  const last = Math.min(samples.length - 1, Math.floor(to * samplingRate));
  for (let i = Math.ceil(from * samplingRate); i <= last; i++) {
    const value = samples[i] as number;
    if (!Number.isFinite(value)) {
      flush();
      if (piece.length > 1) all.push(piece);
      piece = [];
      continue;
    }
    const point: Point = [round(x(i / samplingRate)), round(y(value))];
    const at = Math.floor(point[0] / column);
    if (held && held.at !== at) flush();
    if (!held) held = { at, low: point, high: point };
    else if (point[1] > held.low[1]) held = { ...held, low: point };
    else if (point[1] < held.high[1]) held = { ...held, high: point };
  }
  flush();
  if (piece.length > 1) all.push(piece);
  return all;
}

const round = (mm: number) => Math.round(mm * 100) / 100;

function ticks(from: number, to: number, x: (time: number) => number, y: number): Mark[] {
  const marks: Mark[] = [];
  for (let second = Math.ceil(from - 1e-9); second <= to + 1e-9; second++) {
    const long = second % 5 === 0;
    marks.push({
      kind: 'line',
      points: [
        [x(second), y],
        [x(second), y + (long ? 1.6 : 0.8)],
      ],
      stroke: { colour: inks.soft, width: 0.2 },
    });
    if (!long) continue;
    const align = x(second) < 3 ? 'start' : second + 1 > to ? 'end' : 'middle';
    marks.push(text([x(second), y + 4.2], `${second} s`, { size: 2.6, align, colour: inks.soft }));
  }
  return marks;
}

interface Span {
  readonly from: number;
  readonly to: number;
  readonly x: (time: number) => number;
  readonly y: number;
}

/** A bracket over what of a window lies in this row, with its name where it begins. */
function bracket(window: CountingStrip['windows'][number], { from, to, x, y }: Span): Mark[] {
  const [left, right] = [x(Math.max(from, window.from)), x(Math.min(to, window.to))];
  const stroke = { colour: inks.ink, width: 0.3 };
  const begins = window.from >= from;
  return [
    {
      kind: 'line',
      points: [
        ...(begins ? [[left, y + 1] as Point] : []),
        [left, y],
        [right, y],
        ...(window.to <= to ? [[right, y + 1] as Point] : []),
      ],
      stroke,
    },
    ...(begins ? [text([left + 1, y - 0.7], window.label, { size: 2.7, colour: inks.ink })] : []),
  ];
}
