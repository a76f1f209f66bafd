import type { Block } from '../../words/handout.js';
import { type Piece, type Press, piece } from './press.js';

type Beside = Extract<Block, { kind: 'beside' }>;

/** Between the two columns, in points. */
const gutter = 22;

/** Shares of the left column that are tried; the first is kept unless another one saves a line or more. */
const shares = [0.5, 0.42, 0.58] as const;

/** The narrowest column to be read with ease, in sizes of its letters; not a figure from a study. */
const narrowest = 20;

type Lay = (narrow: Press, blocks: readonly Block[]) => readonly Piece[];

interface Columns {
  /** Points from the sheet's left edge to the right column. */
  readonly second: number;
  readonly pieces: readonly [readonly Piece[], readonly Piece[]];
  readonly height: number;
}

/**
 * Two short parts side by side in one piece, each as high as it needs to be; the left one is printed, and read, first. In
 * large type they follow one another.
 * @param lay the pieces of some blocks within a narrower sheet
 */
export function besidePieces(press: Press, block: Beside, lay: Lay): Piece[] {
  const half = (press.sheet.right - press.sheet.left - gutter) / 2;
  if (half < narrowest * press.type.body.size) {
    return [...lay(press, block.left), ...lay(press, block.right)];
  }
  // A figure has its size, so it cannot give way.
  const figures = [...block.left, ...block.right].some(({ kind }) => kind === 'figure');
  const tries = (figures ? shares.slice(0, 1) : shares).map((share) =>
    columnsOf(press, block, lay, share),
  );
  const line = press.type.body.leading;
  const columns = tries.reduce((best, next) => (next.height < best.height - line ? next : best));
  const { pieces, second, height } = columns;
  return [
    piece({
      before: Math.max(0, ...pieces.map((column) => column[0]?.before ?? 0)),
      height,
      print: (standing) => {
        pieces.forEach((column, i) => {
          let { y } = standing;
          const x = standing.x + i * second;
          column.forEach((part, k) => {
            if (k > 0) y += part.before * press.air;
            part.print({ x, y, first: k === 0 && standing.first, again: false });
            y += part.height;
          });
        });
      },
    }),
  ];
}

function columnsOf(press: Press, block: Beside, lay: Lay, share: number): Columns {
  const { sheet, air } = press;
  const room = sheet.right - sheet.left - gutter;
  const second = room * share + gutter;
  const pieces = [
    lay({ ...press, sheet: { ...sheet, right: sheet.left + room * share } }, block.left),
    lay({ ...press, sheet: { ...sheet, left: sheet.left + second } }, block.right),
  ] as const;
  return { second, pieces, height: Math.max(...pieces.map((column) => heightOf(column, air))) };
}

const heightOf = (pieces: readonly Piece[], air: number): number =>
  pieces.reduce((sum, part, i) => sum + (i === 0 ? 0 : part.before * air) + part.height, 0);
