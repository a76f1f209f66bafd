import type { FigureBlock } from '../../words/handout.js';
import { printDrawing } from './drawing.js';
import { mm } from './page.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { type Tag, tag, within } from './tags.js';
import { printPassage, setPassage } from './text.js';

/**
 * A figure with its caption, in one piece, at its true size. One that is too large for the page is a bug of the caller:
 * shrinking it would make an ECG's boxes lie about time and voltage.
 */
export function figurePieces(press: Press, root: Tag, block: FigureBlock): Piece[] {
  const { sheet, type } = press;
  const size = sizeOf(block);
  const room = sheet.right - sheet.left;
  if (size.width * mm > room + 0.01) {
    throw new Error(
      `figure ${block.name} is ${size.width} mm wide and the text only ${(room / mm).toFixed(1)} mm`,
    );
  }
  const caption = setPassage(press, block.caption.runs, type.caption, room);
  const tall = size.height * mm;
  const gap = 4;
  return [
    piece({
      before: type.body.size * 1.0,
      height: tall + gap + caption.height,
      print: ({ x, y }) => {
        printFigure(press, root, block, { x, y });
        const into = { tag: tag(press, root, 'Caption'), type: 'Caption' };
        printPassage(press, caption, { place: { x, y: y + tall + gap }, into });
      },
    }),
  ];
}

/** Width and height on paper, mm. */
export const sizeOf = ({ figure }: FigureBlock): { width: number; height: number } =>
  figure.kind === 'drawing'
    ? figure.drawing
    : { width: figure.image.widthMm, height: figure.image.heightMm };

/** The figure alone, without its caption. */
export function printFigure(press: Press, root: Tag, block: FigureBlock, { x, y }: Place): void {
  const { doc } = press;
  const { figure } = block;
  const { width, height } = sizeOf(block);
  const bbox = [x, y, x + width * mm, y + height * mm] as const;
  const node = tag(press, root, 'Figure', { alt: block.alternative, bbox });
  within(press, node, 'Figure', () => {
    if (figure.kind === 'drawing') printDrawing(doc, figure.drawing, { x, y });
    else {
      // Handed over as a Buffer, the only kind of bytes that pdfkit's types know.
      const picture = Buffer.from(figure.image.bytes);
      doc.image(picture, x, y, { width: width * mm, height: height * mm });
    }
  });
}
