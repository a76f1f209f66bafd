import type { Block } from '../../words/handout.js';
import { printDrawing } from './drawing.js';
import { mm } from './page.js';
import { type Piece, type Press, piece } from './press.js';
import { type Tag, tag, within } from './tags.js';
import { printPassage, setPassage } from './text.js';

type FigureBlock = Extract<Block, { kind: 'figure' }>;

/**
 * A figure with its caption, in one piece, at its true size. One that is too large for the page is a bug of the caller:
 * shrinking it would make an ECG's boxes lie about time and voltage.
 */
export function figurePieces(press: Press, root: Tag, block: FigureBlock): Piece[] {
  const { sheet, type, doc } = press;
  const { figure } = block;
  const size =
    figure.kind === 'drawing'
      ? figure.drawing
      : { width: figure.image.widthMm, height: figure.image.heightMm };
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
        const bbox = [x, y, x + size.width * mm, y + tall] as const;
        const node = tag(press, root, 'Figure', { alt: block.alternative, bbox });
        within(press, node, 'Figure', () => {
          if (figure.kind === 'drawing') printDrawing(doc, figure.drawing, { x, y });
          else {
            // Handed over as a Buffer, the only kind of bytes that pdfkit's types know.
            const picture = Buffer.from(figure.image.bytes);
            doc.image(picture, x, y, { width: size.width * mm, height: tall });
          }
        });
        const into = { tag: tag(press, root, 'Caption'), type: 'Caption' };
        printPassage(press, caption, { place: { x, y: y + tall + gap }, into });
      },
    }),
  ];
}
