import type { Block } from '../../words/handout.js';
import { asOnePiece, type Lay, setColumns } from './columns.js';
import type { Piece, Press } from './press.js';

type Beside = Extract<Block, { kind: 'beside' }>;

/** Between the two columns, in points. */
const gutter = 22;

/** Shares of the left column that are tried; the first is kept unless another one saves a line or more. */
const shares = [0.5, 0.42, 0.58] as const;

/** The narrowest column to be read with ease, in sizes of its letters; not a figure from a study. */
const narrowest = 20;

/**
 * Two short parts side by side in one piece, each as high as it needs to be; the left one is printed, and read, first. In
 * large type, and within a column of the sheet, they follow one another.
 */
export function besidePieces(press: Press, block: Beside, lay: Lay): Piece[] {
  const half = (press.sheet.right - press.sheet.left - gutter) / 2;
  if (half < narrowest * press.type.body.size) {
    return [...lay(press, block.left), ...lay(press, block.right)];
  }
  // A figure has its size, so it cannot give way.
  const figures = [...block.left, ...block.right].some(({ kind }) => kind === 'figure');
  const tries = (figures ? shares.slice(0, 1) : shares).map((share) =>
    setColumns(press, [block.left, block.right], { share, gutter, lay }),
  );
  const line = press.type.body.leading;
  const best = tries.reduce((least, next) => (next.height < least.height - line ? next : least));
  return [asOnePiece(best, press)];
}
