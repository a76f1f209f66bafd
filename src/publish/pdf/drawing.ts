import type { Drawing, Mark, Point, Stroke } from '../../draw/drawing.js';
import { colourOperands } from './colour.js';
import { mm } from './page.js';
import type { Place } from './press.js';
import { advanceOf } from './typefaces.js';
import { writeText } from './written-text.js';

/** Draws at true scale: 1 mm of the drawing is 1 mm on paper. `place` is the top left corner in points. */
export function printDrawing(doc: PDFKit.PDFDocument, drawing: Drawing, place: Place): void {
  doc.save();
  for (const part of partsOf(drawing)) {
    if (typeof part !== 'string') {
      letter(doc, part, place);
      continue;
    }
    doc.addContent(`q\n${MICROMETRE} 0 0 ${MICROMETRE} ${points(place.x)} ${points(place.y)} cm`);
    doc.addContent(`${part}\nQ`);
  }
  doc.restore();
}

/** In points, with more digits than pdfkit's six: those would make 200 mm wrong by 25 µm. */
const MICROMETRE = (mm / 1000).toFixed(12);

const points = (length: number): number => Math.round(length * 1e6) / 1e6;

type Lettering = Extract<Mark, { kind: 'text' }>;
type Shape = Exclude<Mark, Lettering>;

/** Drawings as they were written before: one is often printed in several documents. */
const written = new WeakMap<Drawing, readonly (string | Lettering)[]>();

/**
 * Letters apart, as each document numbers the glyphs that it uses; every run of other marks between them as operators of
 * the format (ISO 32000-1, 8.5), in whole micrometres. pdfkit's own calls write the same, a line at a time and at ten times the cost.
 */
function partsOf(drawing: Drawing): readonly (string | Lettering)[] {
  const before = written.get(drawing);
  if (before) return before;
  const parts: (string | Lettering)[] = [];
  let pen = newPen();
  const lift = () => {
    if (pen.lines.length > 1) parts.push(pen.lines.join('\n'));
    pen = newPen();
  };
  for (const mark of drawing.marks) {
    if (mark.kind !== 'text') draw(pen, mark);
    else {
      lift();
      parts.push(mark);
    }
  }
  lift();
  written.set(drawing, parts);
  return parts;
}

/** What has been written, and what the last of it was drawn with. */
interface Pen {
  readonly lines: string[];
  fill: string | null;
  stroke: string | null;
}

const ROUND_JOIN = '1 j';
const newPen = (): Pen => ({ lines: [ROUND_JOIN], fill: null, stroke: null });

function draw(pen: Pen, mark: Shape): void {
  const { stroke } = mark;
  const fill = mark.kind === 'line' ? undefined : mark.fill;
  dip(pen, fill, stroke);
  const closes = mark.kind !== 'line';
  const path = pathOf(mark);
  if (path === '') return;
  pen.lines.push(closes ? `${path}\nh` : path);
  pen.lines.push(fill && stroke ? 'B' : fill ? 'f' : stroke ? 'S' : 'n');
}

/** Paths of marks that many drawings share: the hairs of the skin are the same around every wound. */
const paths = new WeakMap<Shape, string>();

/** A longer path is a trace, which no other drawing has. */
const MOST_POINTS = 100;

function pathOf(mark: Shape): string {
  if (mark.kind !== 'circle' && mark.points.length > MOST_POINTS) return polyline(mark.points);
  const before = paths.get(mark);
  if (before !== undefined) return before;
  const path = mark.kind === 'circle' ? circle(mark.centre, mark.radius) : polyline(mark.points);
  paths.set(mark, path);
  return path;
}

/** Pens and colours come before the path: inside one, the format allows only the path itself. */
function dip(pen: Pen, fill: string | undefined, stroke: Stroke | undefined): void {
  if (fill && fill !== pen.fill) {
    pen.lines.push(`${colourOperands(fill)} rg`);
    pen.fill = fill;
  }
  if (!stroke) return;
  const dash = (stroke.dash ?? []).map(micrometres).join(' ');
  const drawnWith = `${micrometres(stroke.width)} w\n${colourOperands(stroke.colour)} RG\n[${dash}] 0 d`;
  if (drawnWith !== pen.stroke) pen.lines.push(drawnWith);
  pen.stroke = drawnWith;
}

function polyline(points: readonly Point[]): string {
  let path = '';
  // A trace has thousands of points: by number, as taking each pair apart costs as much as writing it.
  for (let i = 0; i < points.length; i++) {
    const point = points[i] as Point;
    path += `${micrometres(point[0])} ${micrometres(point[1])} ${i === 0 ? 'm' : 'l'}\n`;
  }
  return path.trimEnd();
}

/** A quarter of a circle as a Bézier curve: how far its handles reach, in radii. */
const HANDLE = (4 * (Math.SQRT2 - 1)) / 3;

function circle([x, y]: Point, radius: number): string {
  const reach = radius * HANDLE;
  const quarter = (...lengths: readonly number[]) => `${lengths.map(micrometres).join(' ')} c`;
  const [left, right, top, bottom] = [x - radius, x + radius, y - radius, y + radius];
  return [
    `${micrometres(left)} ${micrometres(y)} m`,
    quarter(left, y - reach, x - reach, top, x, top),
    quarter(x + reach, top, right, y - reach, right, y),
    quarter(right, y + reach, x + reach, bottom, x, bottom),
    quarter(x - reach, bottom, left, y + reach, left, y),
  ].join('\n');
}

/** A length of the drawing, in mm, as exact as in the SVG. */
function micrometres(length: number): number {
  if (!Number.isFinite(length)) throw new Error(`a drawing holds ${length} where a length goes`);
  return Math.round(length * 1000);
}

function letter(doc: PDFKit.PDFDocument, mark: Lettering, { x, y }: Place): void {
  const size = mark.size * mm;
  const width = (advanceOf(mark.weight, mark.text, false) * size) / 1000;
  const shift = mark.align === 'end' ? width : mark.align === 'middle' ? width / 2 : 0;
  const [right, down] = mark.at;
  writeText(doc, mark.text, {
    face: mark.weight,
    size,
    colour: mark.colour,
    tabular: false,
    x: x + right * mm - shift,
    y: y + down * mm,
  });
}
