import type { Drawing, Mark, Point, Stroke } from '../../draw/drawing.js';
import { demandGlyphs, faces } from '../fonts.js';
import { mm } from './page.js';
import type { Place } from './press.js';

/** Draws at true scale: 1 mm of the drawing is 1 mm on paper. `place` is the top left corner in points. */
export function printDrawing(doc: PDFKit.PDFDocument, drawing: Drawing, place: Place): void {
  const at = ([x, y]: Point): [number, number] => [
    place.x + thousandth(x * mm),
    place.y + thousandth(y * mm),
  ];
  doc.save();
  for (const mark of drawing.marks) print(doc, mark, at);
  doc.restore();
}

type At = (point: Point) => [number, number];

function print(doc: PDFKit.PDFDocument, mark: Mark, at: At): void {
  switch (mark.kind) {
    case 'line':
      dip(doc, undefined, mark.stroke);
      trace(doc, mark.points, at);
      doc.stroke();
      return;
    case 'area':
      dip(doc, mark.fill, mark.stroke);
      trace(doc, mark.points, at);
      doc.closePath();
      paint(doc, mark.fill, mark.stroke);
      return;
    case 'circle':
      dip(doc, mark.fill, mark.stroke);
      doc.circle(...at(mark.centre), mark.radius * mm);
      paint(doc, mark.fill, mark.stroke);
      return;
    case 'text': {
      const face = mark.weight;
      demandGlyphs(face, mark.text);
      doc
        .font(faces[face])
        .fontSize(mark.size * mm)
        .fillColor(mark.colour);
      const [x, y] = at(mark.at);
      const width = doc.widthOfString(mark.text);
      const shift = mark.align === 'end' ? width : mark.align === 'middle' ? width / 2 : 0;
      doc.text(mark.text, x - shift, y, { lineBreak: false, baseline: 'alphabetic' });
    }
  }
}

function trace(doc: PDFKit.PDFDocument, points: readonly Point[], at: At): void {
  points.forEach((point, i) => {
    if (i === 0) doc.moveTo(...at(point));
    else doc.lineTo(...at(point));
  });
}

/** Pens and colours come before the path: inside one, the format allows only the path itself. */
function dip(doc: PDFKit.PDFDocument, fill?: string, stroke?: Stroke): void {
  if (fill) doc.fillColor(fill);
  if (!stroke) return;
  doc
    .lineWidth(stroke.width * mm)
    .strokeColor(stroke.colour)
    .lineJoin('round');
  const dash = stroke.dash ?? [];
  doc.addContent(`[${dash.map((length) => thousandth(length * mm)).join(' ')}] 0 d`);
}

function paint(doc: PDFKit.PDFDocument, fill?: string, stroke?: Stroke): void {
  if (fill && stroke) doc.fillAndStroke();
  else if (fill) doc.fill();
  else if (stroke) doc.stroke();
}

const thousandth = (points: number) => Math.round(points * 1000) / 1000;
