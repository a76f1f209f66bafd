import { createCanvas, GlobalFonts, type SKRSContext2D } from '@napi-rs/canvas';
import PDFDocument from 'pdfkit';
import type { Drawing, Mark, Stroke } from '../draw/drawing.js';
import { family } from '../draw/inks.js';
import { toSvg } from '../draw/svg.js';
import { demandGlyphs, faces } from './fonts.js';
import { opaquePng } from './opaque-png.js';
import { printDrawing } from './pdf/drawing.js';
import { mm } from './pdf/page.js';
import { registerFaces } from './pdf/typefaces.js';

/** Ways to write a drawing, by the ending of the file. */
export const DRAWING_ENDINGS = ['.svg', '.png', '.pdf'] as const;
export type DrawingEnding = (typeof DRAWING_ENDINGS)[number];

/** Dots in a millimetre of a PNG: 300 to the inch. */
const DOTS = 300 / 25.4;
/** A taller PNG is more than many programs open. Own choice, dots. */
export const MOST_DOTS = 10_000;
/** White around the drawing in PNG, mm. */
const MARGIN = 5;

/** A drawing as the bytes of a file, at true scale in SVG. */
export async function drawingFile(
  drawing: Drawing,
  ending: Exclude<DrawingEnding, '.pdf'>,
  words: { readonly title: string; readonly description: string },
): Promise<Uint8Array> {
  switch (ending) {
    case '.svg':
      return new TextEncoder().encode(toSvg(drawing, words));
    case '.png':
      return png(drawing);
  }
}

/** Drawings of whole sheets as a PDF at true scale, one a page. */
export function sheetsFile(sheets: readonly Drawing[], title: string): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    // No clock: the same strip gives the same bytes.
    info: { Title: title, CreationDate: new Date(0) },
  });
  registerFaces(doc);
  const parts: Buffer[] = [];
  doc.on('data', (part: Buffer) => parts.push(part));
  const done = new Promise<Uint8Array>((resolve) => {
    doc.on('end', () => resolve(new Uint8Array(Buffer.concat(parts))));
  });
  for (const sheet of sheets) {
    doc.addPage({ size: [sheet.width * mm, sheet.height * mm], margin: 0 });
    printDrawing(doc, sheet, { x: 0, y: 0 });
  }
  doc.end();
  return done;
}

/** How high the PNG of a drawing is, dots. */
export const dotsHigh = ({ height }: Drawing): number => Math.ceil((height + 2 * MARGIN) * DOTS);

function png(drawing: Drawing): Uint8Array {
  knowFaces();
  const canvas = createCanvas(Math.ceil((drawing.width + 2 * MARGIN) * DOTS), dotsHigh(drawing));
  const context = canvas.getContext('2d');
  context.fillStyle = '#ffffff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.scale(DOTS, DOTS);
  context.translate(MARGIN, MARGIN);
  context.lineJoin = 'round';
  for (const mark of drawing.marks) paint(context, mark);
  return opaquePng({ width: canvas.width, height: canvas.height, rgba: canvas.data() });
}

let known = false;

/** Makes the product's own faces known to the canvas, once. */
function knowFaces(): void {
  if (known) return;
  for (const face of ['regular', 'bold'] as const) {
    if (!GlobalFonts.registerFromPath(faces[face], family)) {
      throw new Error(`the ${face} face could not be loaded from ${faces[face]}`);
    }
  }
  known = true;
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
