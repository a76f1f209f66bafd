import { enlarged } from '../../draw/enlarged.js';
import type { FigureBlock, Handout } from '../../words/handout.js';
import { printDrawing } from './drawing.js';
import { mm } from './page.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import type { SetCell } from './table.js';
import { type Tag, tag, within } from './tags.js';
import { printPassage, setPassage } from './text.js';

/** A figure with its caption, in one piece. */
export function figurePieces(press: Press, root: Tag, block: FigureBlock): Piece[] {
  const { sheet, type } = press;
  const { height, print } = setFigure(press, block, sheet.right - sheet.left);
  return [piece({ before: type.body.size * 1.0, height, print: (place) => print(place, root) })];
}

/**
 * A figure with its caption below it, at its true size. One that is too large for its room is a bug of the caller:
 * shrinking it would make an ECG's boxes lie about time and voltage.
 */
export function setFigure(press: Press, block: FigureBlock, room: number): SetCell {
  const figure = figureFor(press.handout, block);
  const { width, height } = sizeOf(figure);
  if (width * mm > room + 0.01) {
    throw new Error(
      `figure ${block.name} is ${width} mm wide and its room only ${(room / mm).toFixed(1)} mm`,
    );
  }
  const free = room - width * mm - BESIDE.gap;
  const beside = press.dense && free >= BESIDE.narrowest;
  const caption = setPassage(block.caption.runs, press.type.caption, beside ? free : room);
  const tall = height * mm;
  const under = tall + (press.dense ? 1 : 4);
  const at = beside
    ? { x: width * mm + BESIDE.gap, y: Math.max(0, (tall - caption.height) / 2) }
    : { x: 0, y: under };
  return {
    height: beside ? Math.max(tall, caption.height) : under + caption.height,
    print: ({ x, y }, into) => {
      printFigure(press, into, figure, { x, y });
      const words = { tag: tag(press, into, 'Caption'), type: 'Caption' };
      printPassage(press, caption, { place: { x: x + at.x, y: y + at.y }, into: words });
    },
  };
}

/** Where one page is short of lines a caption stands beside its figure; narrowest column and distance, in points. */
const BESIDE = { narrowest: 52, gap: 8 };

/** Letters of large type, mm: 18 points. */
const LARGE_LETTER = 18 / mm;
/** Both papers leave this much for the text, mm. */
const WIDEST = 178;

/** In large type the letters of a drawing are as large as those of the text. */
export function figureFor(
  { largeType }: Pick<Handout, 'largeType'>,
  block: FigureBlock,
): FigureBlock {
  const { figure } = block;
  if (!largeType || figure.kind === 'image') return block;
  const drawing = enlarged(figure.drawing, { letter: LARGE_LETTER, widest: WIDEST });
  return { ...block, figure: { kind: 'drawing', drawing } };
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
