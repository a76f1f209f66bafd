import type { Block } from '../../words/handout.js';
import { type Piece, type Press, piece } from './press.js';

type Beside = Extract<Block, { kind: 'beside' }>;

/** Between the two columns, in points. */
const gutter = 22;

/**
 * Two short parts side by side in one piece, each as high as it needs to be; the left one is printed, and read, first.
 * @param lay the pieces of some blocks within a narrower sheet
 */
export function besidePieces(
  press: Press,
  block: Beside,
  lay: (narrow: Press, blocks: readonly Block[]) => readonly Piece[],
): Piece[] {
  const { sheet } = press;
  const width = (sheet.right - sheet.left - gutter) / 2;
  const columns = [
    lay({ ...press, sheet: { ...sheet, right: sheet.left + width } }, block.left),
    lay({ ...press, sheet: { ...sheet, left: sheet.right - width } }, block.right),
  ] as const;
  const before = Math.max(0, ...columns.map((pieces) => pieces[0]?.before ?? 0));
  return [
    piece({
      before,
      height: Math.max(...columns.map((pieces) => heightOf(pieces, press.air))),
      print: (standing) => {
        columns.forEach((pieces, i) => {
          let { y } = standing;
          const x = i === 0 ? standing.x : sheet.right - width;
          pieces.forEach((part, k) => {
            if (k > 0) y += part.before * press.air;
            part.print({ x, y, first: k === 0 && standing.first, again: false });
            y += part.height;
          });
        });
      },
    }),
  ];
}

const heightOf = (pieces: readonly Piece[], air: number): number =>
  pieces.reduce((sum, part, i) => sum + (i === 0 ? 0 : part.before * air) + part.height, 0);
