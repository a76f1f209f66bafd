import type { Mark, Point } from '../drawing.js';
import { hatch } from '../hatch.js';
import { inks } from '../inks.js';
import { rectangle, text } from '../lettering.js';
import { textWidth, wrapped } from '../text-width.js';
import { gain, type Row, xOf } from './row.js';

interface Shown {
  readonly left: number;
  readonly right: number;
  readonly why: string;
}

/** The stretches of a row that cannot be read, where they stand on it, in mm. */
export function spansIn(row: Row): Shown[] {
  return row.strip.unreadable
    .filter((span) => span.to > row.from && span.from < row.to)
    .map((span) => ({
      left: xOf(row, Math.max(span.from, row.from)),
      right: xOf(row, Math.min(span.to, row.to)),
      why: span.why,
    }));
}

const labelSize = 2.9;
const labelLeading = 3.6;

/** The reason broken into lines that fit inside the span, or null when the span is too small for it. */
export function labelLines(row: Row, span: Shown): readonly string[] | null {
  const lines = wrapped(span.why, labelSize, span.right - span.left - 4);
  const room = (row.high - row.low) * gain - 4;
  return lines && lines.length * labelLeading <= room ? lines : null;
}

/** A stretch that cannot be read as hatching across the row, with the reason in it where there is room. */
export function hatchedSpan(row: Row, span: Shown): Mark[] {
  const height = (row.high - row.low) * gain;
  const box = { left: span.left, top: row.top, right: span.right, bottom: row.top + height };
  const marks: Mark[] = [...hatch(box, 1.8, { colour: inks.faint, width: 0.18 })];
  const lines = labelLines(row, span);
  if (!lines) return marks;
  const widest = Math.max(...lines.map((line) => textWidth(line, labelSize)));
  const middle = (span.left + span.right) / 2;
  const top = row.top + (height - lines.length * labelLeading) / 2;
  marks.push({
    kind: 'area',
    points: rectangle(
      middle - widest / 2 - 1.4,
      top - 0.8,
      widest + 2.8,
      lines.length * labelLeading + 1.6,
    ),
    fill: inks.paper,
    stroke: { colour: inks.ink, width: 0.18 },
  });
  lines.forEach((line, i) => {
    const at: Point = [middle, top + i * labelLeading + 2.7];
    marks.push(text(at, line, { size: labelSize, align: 'middle', colour: inks.ink }));
  });
  return marks;
}

/** The reason of a stretch that is too narrow to hold it, written under the row at `y` mm and kept within the row. */
export function labelBelow(row: Row, span: Shown, y: number): Mark[] {
  const width = textWidth(span.why, labelSize);
  const edge = row.left + row.across;
  const leftward = span.left + width > edge;
  const at: Point = [leftward ? span.right : span.left, y + 2.9];
  return [
    {
      kind: 'line',
      points: [
        [span.left, y - 0.4],
        [span.left, y + 0.2],
        [span.right, y + 0.2],
        [span.right, y - 0.4],
      ],
      stroke: { colour: inks.ink, width: 0.25 },
    },
    text(at, span.why, { size: labelSize, align: leftward ? 'end' : 'start', colour: inks.ink }),
  ];
}
