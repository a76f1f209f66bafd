import type { Drawing, Mark } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { beyondPaper } from './beyond.js';
import { beatMarks, calibration, secondTicks, waveLabels } from './marks.js';
import { paperGrid } from './paper.js';
import { type EcgStrip, gain, gutter, type Row } from './row.js';
import { tracePieces } from './trace.js';
import { hatchedSpan, labelBelow, labelLines, spansIn } from './unreadable.js';
import { amplitudeWindow } from './window.js';

export type { EcgStrip, StripBeat } from './row.js';

/** Seconds of recording that one row of paper shows, for a width in mm and a paper speed in mm/s. */
export function secondsPerRow(width: number, paperSpeed: number): number {
  return (paperAcross(width) - gutter) / paperSpeed;
}

/** Whole boxes that fit into a width, mm. */
const paperAcross = (width: number) => Math.floor((width - 1) / 5) * 5;

/** Rhythm strip on true-scale paper (1 mm fine, 5 mm bold, 10 mm = 1 mV), in as many rows as the width asks for. */
export function ecgStrip(strip: EcgStrip): Drawing {
  const across = paperAcross(strip.width);
  const marks: Mark[] = [...heading(strip)];
  let y = underHeading;
  for (const row of ecgRows(strip)) {
    const laid = row(y);
    marks.push(...laid.marks);
    y = laid.foot;
  }
  return { width: across + 1, height: y, marks };
}

/** A part of a strip, with the stretch that it shows, s. */
export interface EcgPiece extends Drawing {
  readonly from: number;
  readonly to: number;
}

/** The rows of the same strip without its heading, in pieces no higher than `height` mm where a row fits at all. */
export function ecgStripPieces(strip: EcgStrip, height: number): EcgPiece[] {
  const width = paperAcross(strip.width) + 1;
  const pieces: EcgPiece[] = [];
  let marks: Mark[] = [];
  let y = 0;
  let from = strip.from;
  const close = (to: number) => {
    pieces.push({ width, height: y, from, to, marks });
    marks = [];
    y = 0;
    from = to;
  };
  let end = strip.from;
  for (const row of ecgRows(strip)) {
    let laid = row(y);
    if (laid.foot - betweenRows > height && marks.length > 0) {
      close(end);
      laid = row(y);
    }
    marks.push(...laid.marks);
    y = laid.foot;
    end = laid.to;
  }
  close(strip.to);
  return pieces;
}

const underHeading = 5;
const betweenRows = 1.2;

/** Lays a row under `y` mm, and tells where the next one may begin. */
type LayRow = (y: number) => {
  readonly marks: readonly Mark[];
  readonly foot: number;
  /** s. */
  readonly to: number;
};

function ecgRows(strip: EcgStrip): LayRow[] {
  if (paperAcross(strip.width) < gutter + 20)
    throw new Error(`an ECG strip needs 31 mm of width, not ${strip.width}`);
  if (!(strip.to > strip.from)) throw new Error('an ECG strip must end after it starts');
  const rowSeconds = secondsPerRow(strip.width, strip.paperSpeed);
  const [low, high] = amplitudeWindow(strip);
  const rows: LayRow[] = [];
  for (let from = strip.from; strip.to - from > 1e-9; from += rowSeconds) {
    const to = Math.min(strip.to, from + rowSeconds);
    rows.push((y) => layRow({ strip, from, to, low, high }, y));
  }
  return rows;
}

function layRow(
  { strip, from, to, low, high }: Pick<Row, 'strip' | 'from' | 'to' | 'low' | 'high'>,
  y: number,
): ReturnType<LayRow> {
  // The last row's paper ends with the recording, on a whole box.
  const paper = gutter + Math.ceil(((to - from) * strip.paperSpeed) / 5 - 1e-6) * 5;
  const row: Row = { strip, from, to, low, high, left: 0.5, top: y + 4.5, across: paper };
  const height = (high - low) * gain;
  const below = row.top + height;
  const spans = spansIn(row);
  const marks: Mark[] = [
    ...paperGrid(row.left, row.top, paper, height),
    ...spans.flatMap((span) => hatchedSpan(row, span)),
    ...calibration(row),
    ...secondTicks(row, below),
  ];
  for (const piece of tracePieces(row)) {
    marks.push({ kind: 'line', points: piece, stroke: { colour: inks.ink, width: 0.28 } });
  }
  marks.push(...beyondPaper(row), ...beatMarks(row));
  let foot = below + 4.4;
  if (strip.beats.some((beat) => beat.p || beat.qrs || beat.t)) {
    marks.push(...waveLabels(row, foot));
    foot += 5.6;
  }
  for (const span of spans) {
    if (labelLines(row, span)) continue;
    marks.push(...labelBelow(row, span, foot));
    foot += 3.6;
  }
  return { marks, foot: foot + betweenRows, to };
}

/** How large the strip is drawn. */
export const scaleOf = (strip: EcgStrip): string => `${strip.paperSpeed} mm/s · ${gain} mm/mV`;

function heading(strip: EcgStrip): Mark[] {
  return [
    text([0.5, 3.6], strip.lead, { size: 3.6, weight: 'bold', colour: inks.ink }),
    text([paperAcross(strip.width) + 0.5, 3.6], scaleOf(strip), {
      size: 3,
      align: 'end',
      colour: inks.soft,
    }),
  ];
}
