import { createCanvas, type SKRSContext2D } from '@napi-rs/canvas';
import PDFDocument from 'pdfkit';
import type { Drawing, Mark, Stroke } from '../draw/drawing.js';
import { family } from '../draw/inks.js';
import { toSvg } from '../draw/svg.js';
import { registerFaces } from './chart-image.js';
import { demandGlyphs } from './fonts.js';
import { opaquePng } from './opaque-png.js';
import { printDrawing } from './pdf/drawing.js';
import { mm } from './pdf/page.js';

/** Ways to write a drawing, by the ending of the file. */
export const DRAWING_ENDINGS = ['.svg', '.png', '.pdf'] as const;
export type DrawingEnding = (typeof DRAWING_ENDINGS)[number];

/** Dots in a millimetre of a PNG: 300 to the inch. */
const DOTS = 300 / 25.4;
/** White around the drawing in PNG and PDF, mm. */
const MARGIN = 5;

/** A drawing as the bytes of a file, at true scale in SVG and PDF. */
export async function drawingFile(
  drawing: Drawing,
  ending: DrawingEnding,
  words: { readonly title: string; readonly description: string },
): Promise<Uint8Array> {
  switch (ending) {
    case '.svg':
      return new TextEncoder().encode(toSvg(drawing, words));
    case '.png':
      return png(drawing);
    case '.pdf':
      return pdf(drawing, words.title);
  }
}

function pdf(drawing: Drawing, title: string): Promise<Uint8Array> {
  const doc = new PDFDocument({
    size: [(drawing.width + 2 * MARGIN) * mm, (drawing.height + 2 * MARGIN) * mm],
    margin: 0,
    // No clock: the same strip gives the same bytes.
    info: { Title: title, CreationDate: new Date(0) },
  });
  const parts: Buffer[] = [];
  doc.on('data', (part: Buffer) => parts.push(part));
  const done = new Promise<Uint8Array>((resolve) => {
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
  });
  printDrawing(doc, drawing, { x: MARGIN * mm, y: MARGIN * mm });
  doc.end();
  return done;
}

function png(drawing: Drawing): Uint8Array {
  registerFaces();
  const canvas = createCanvas(
    Math.ceil((drawing.width + 2 * MARGIN) * DOTS),
    Math.ceil((drawing.height + 2 * MARGIN) * DOTS),
  );
  const context = canvas.getContext('2d');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.scale(DOTS, DOTS);
  context.translate(MARGIN, MARGIN);
  context.lineJoin = 'round';
  for (const mark of drawing.marks) paint(context, mark);
  return opaquePng(canvas.toBuffer('image/png'));
}

function paint(context: SKRSContext2D, mark: Mark): void {
  context.beginPath();
  switch (mark.kind) {
    case 'line':
    case 'area':
      mark.points.forEach(([x, y], index) => {
        if (index === 0) context.moveTo(x, y);
        else context.lineTo(x, y);
      });
      if (mark.kind === 'area') context.closePath();
      break;
    case 'circle':
      context.arc(...mark.centre, mark.radius, 0, 2 * Math.PI);
      break;
    case 'text':
      demandGlyphs(mark.weight, mark.text);
      context.font = `${mark.weight === 'bold' ? 700 : 400} ${mark.size}px "${family}"`;
      context.textAlign = mark.align === 'middle' ? 'center' : mark.align;
      context.fillStyle = mark.colour;
      context.fillText(mark.text, ...mark.at);
      return;
  }
  if (mark.kind !== 'line' && mark.fill) {
    context.fillStyle = mark.fill;
    context.fill();
  }
  if (mark.stroke) stroke(context, mark.stroke);
}

function stroke(context: SKRSContext2D, { colour, width, dash }: Stroke): void {
  context.strokeStyle = colour;
  context.lineWidth = width;
  context.setLineDash([...(dash ?? [])]);
  context.stroke();
}
