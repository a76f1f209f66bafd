import type { Block } from '../../words/handout.js';
import { figureFor, sizeOf } from './figure.js';
import { mm, type Sheet } from './page.js';
import { type Piece, type Press, piece } from './press.js';

/** The pieces of some blocks within a narrower sheet. */
export type Lay = (narrow: Press, blocks: readonly Block[]) => readonly Piece[];

/** Two stacks of pieces side by side. */
export interface Columns {
  /** Points from the sheet's left edge to the right column. */
  readonly second: number;
  readonly pieces: readonly [left: readonly Piece[], right: readonly Piece[]];
  readonly height: number;
}

/** Sets blocks in two columns. @param share of the room between the edges that the left one has */
export function setColumns(
  press: Press,
  [left, right]: readonly [readonly Block[], readonly Block[]],
  { share, gutter, lay }: { readonly share: number; readonly gutter: number; readonly lay: Lay },
): Columns {
  const { sheet, air } = press;
  const room = sheet.right - sheet.left - gutter;
  const second = room * share + gutter;
  const pieces = [
    lay({ ...press, sheet: { ...sheet, right: sheet.left + room * share } }, left),
    lay({ ...press, sheet: { ...sheet, left: sheet.left + second } }, right),
  ] as const;
  return { second, pieces, height: Math.max(...pieces.map((column) => heightOf(column, air))) };
}

const heightOf = (pieces: readonly Piece[], air: number): number =>
  pieces.reduce((sum, part, i) => sum + (i === 0 ? 0 : part.before * air) + part.height, 0);

/** Both columns as one piece; the left one is printed, and read, first. @param atHead nothing that a rule would part stands above */
export const asOnePiece = (
  { pieces, second, height }: Columns,
  { air }: Press,
  atHead = false,
): Piece =>
  piece({
    before: Math.max(0, ...pieces.map((column) => column[0]?.before ?? 0)),
    height,
    print: (standing) => {
      pieces.forEach((column, i) => {
        let { y } = standing;
        const x = standing.x + i * second;
        column.forEach((part, k) => {
          if (k > 0) y += part.before * air;
          part.print({ x, y, first: k === 0 && (atHead || standing.first), again: false });
          y += part.height;
        });
      });
    },
  });

/** Between the columns of a whole sheet, in points. */
const SHEET_GUTTER = 16;

/** Shares of the left column that are tried for a whole sheet, the best first. */
const HALF = 0.5;
const SHEET_SHARES = [HALF, 0.488, 0.512, 0.475, 0.525, 0.455, 0.545] as const;

/** Above this share of two columns' room a sheet is taken for too long; columns of other widths differ by less. */
const FAR_TOO_LONG = 1.1;

/**
 * A whole sheet in two columns, parted between two blocks or two items of a list, with the share of the room that the higher
 * column takes; null where no parting fits.
 * @param room height in points
 */
export function sheetInColumns(
  press: Press,
  all: readonly Block[],
  lay: Lay,
  room: number,
): { readonly piece: Piece; readonly filled: number } | null {
  const whole = press.sheet.right - press.sheet.left - SHEET_GUTTER;
  const blocks = oneAfterTheOther(all);
  const figure = widestFigure(press, blocks);
  // Which way the line between the columns has to go from the middle; not known at first.
  let towards = 0;
  for (const share of SHEET_SHARES) {
    if (figure > whole * Math.min(share, 1 - share)) continue;
    if (Math.sign(share - HALF) !== towards && share !== HALF) continue;
    const lowest = lowestParting(press, blocks, { share, lay, room });
    if (!lowest) return null;
    if (lowest.height <= room) {
      return { piece: asOnePiece(lowest, press, true), filled: lowest.height / room };
    }
    const [left, right] = lowest.pieces.map((column) => heightOf(column, press.air)) as [
      number,
      number,
    ];
    // Another share moves lines from column to column; it hardly makes fewer of them.
    if ((left + right) / 2 > room * 1.01) return null;
    if (share === HALF) towards = Math.sign(left - right);
  }
  return null;
}

/**
 * A sheet too long for one page, in two columns of one width on each page; null where they do not hold it. A table runs on
 * from column to column between its rows.
 * @param rooms height in points that each page leaves to its columns
 */
export function sheetOverPages(
  press: Press,
  all: readonly Block[],
  lay: Lay,
  rooms: readonly number[],
): Piece[] | null {
  const { sheet, air } = press;
  const width = (sheet.right - sheet.left - SHEET_GUTTER) / 2;
  const narrow = { ...press, sheet: { ...sheet, right: sheet.left + width } };
  let rest = headed(oneAfterTheOther(all)).flatMap((part) => keptTogether(part, lay(narrow, part)));
  const pages = rooms.map((room): Columns => {
    const first = fitting(rest, room, air);
    const second = fitting(rest.slice(first), room, air);
    const both = rest.slice(0, first + second);
    rest = rest.slice(first + second);
    // The last page is filled evenly.
    const at = rest.length > 0 ? first : evenly(both, air, first);
    return {
      second: width + SHEET_GUTTER,
      pieces: [both.slice(0, at), both.slice(at)],
      height: Math.max(heightOf(both.slice(0, at), air), heightOf(both.slice(at), air)),
    };
  });
  return rest.length > 0 ? null : pages.map((columns) => asOnePiece(columns, press, true));
}

/** Figures that are to be compared stay in one column. */
const keptTogether = (part: readonly Block[], pieces: readonly Piece[]): readonly Piece[] =>
  part.filter(({ kind }) => kind === 'figure').length > 1
    ? pieces.map((one, i) => ({ ...one, keepsWithNext: i < pieces.length - 1 }))
    : pieces;

/** How many of the pieces fit, none of them parted from what it is to be read with. */
function fitting(pieces: readonly Piece[], room: number, air: number): number {
  const heights = downTo(pieces, air);
  let count = pieces.length;
  while (count > 0 && ((heights[count] as number) > room || pieces[count - 1]?.keepsWithNext)) {
    count--;
  }
  return count;
}

/** Where two columns of the pieces are most alike in height; the left one holds so many at most. */
function evenly(pieces: readonly Piece[], air: number, most: number): number {
  const [above, below] = [downTo(pieces, air), upFrom(pieces, air)];
  let best = most;
  for (let at = most; at > 0; at--) {
    if (pieces[at - 1]?.keepsWithNext) continue;
    if ((below[at] ?? 0) > (above[most] as number)) break;
    const higher = (place: number) => Math.max(above[place] as number, below[place] ?? 0);
    if (higher(at) < higher(best)) best = at;
  }
  return best;
}

/** What stands side by side elsewhere follows in a column, where the line between the columns may part it. */
const oneAfterTheOther = (blocks: readonly Block[]): Block[] =>
  blocks.flatMap((block) =>
    block.kind === 'beside' ? oneAfterTheOther([...block.left, ...block.right]) : [block],
  );

/** The sheet parted between two blocks where the higher column is lowest; null where it is far too long for two columns. */
function lowestParting(
  press: Press,
  blocks: readonly Block[],
  { share, lay, room }: { readonly share: number; readonly lay: Lay; readonly room: number },
): Columns | null {
  const { sheet, air } = press;
  const whole = sheet.right - sheet.left - SHEET_GUTTER;
  const second = whole * share + SHEET_GUTTER;
  const parts = headed(blocks);
  const set = (edges: Partial<Sheet>) =>
    parts.map((part) => lay({ ...press, sheet: { ...sheet, ...edges } }, part));
  const left = set({ right: sheet.left + whole * share });
  const before = left.flat();
  // No parting mends that, and the right column need not be set.
  if (heightOf(before, air) > 2 * room * FAR_TOO_LONG) return null;
  // Columns of one width hold the same pieces.
  const right = share === HALF ? left : set({ left: sheet.left + second });
  const after = right.flat();
  const [above, below] = [downTo(before, air), upFrom(after, air)];
  let best: { readonly height: number; readonly at: readonly [number, number] } | null = null;
  let [l, r] = [0, 0];
  parts.forEach((part, at) => {
    const [ones, others] = [left[at] as readonly Piece[], right[at] as readonly Piece[]];
    for (const place of placesToPart(part, ones, others)) {
      const height = Math.max(above[l + place] as number, below[r + place] as number);
      if (l + place > 0 && (!best || height < best.height)) {
        best = { height, at: [l + place, r + place] };
      }
    }
    l += ones.length;
    r += others.length;
  });
  return best && columnsOf(best, before, after, second);
}

const columnsOf = (
  { height, at: [l, r] }: { readonly height: number; readonly at: readonly [number, number] },
  before: readonly Piece[],
  after: readonly Piece[],
  second: number,
): Columns => ({ second, pieces: [before.slice(0, l), after.slice(r)], height });

/** The height of the first none, one, two and so on of the pieces. */
function downTo(pieces: readonly Piece[], air: number): number[] {
  let height = 0;
  return [
    0,
    ...pieces.map((part, i) => {
      height += (i === 0 ? 0 : part.before * air) + part.height;
      return height;
    }),
  ];
}

/** The height of the pieces from the first, the second and so on to the last. */
function upFrom(pieces: readonly Piece[], air: number): number[] {
  const heights: number[] = [];
  let under = 0;
  for (let i = pieces.length - 1; i >= 0; i--) {
    const part = pieces[i] as Piece;
    heights[i] = under + part.height;
    under = (heights[i] as number) + part.before * air;
  }
  return heights;
}

/** How many pieces of a part may stand in the left column while the others stand in the right one: all lists may be parted. */
function placesToPart(
  part: readonly Block[],
  left: readonly Piece[],
  right: readonly Piece[],
): number[] {
  // Lines may fall otherwise in a column of another width, and pieces with them.
  if (part.at(-1)?.kind !== 'list' || left.length !== right.length) return [0];
  return left.flatMap((_, i) => (i === 0 || !left[i - 1]?.keepsWithNext ? [i] : []));
}

/** Each block with the headings above it; figures that are to be compared stay together. */
function headed(blocks: readonly Block[]): Block[][] {
  const parts: Block[][] = [];
  let part: Block[] = [];
  for (const [i, block] of blocks.entries()) {
    part.push(block);
    if (block.kind === 'heading') continue;
    if (block.kind === 'figure' && blocks[i + 1]?.kind === 'figure') continue;
    parts.push(part);
    part = [];
  }
  return part.length > 0 ? [...parts, part] : parts;
}

/** In points: a figure has its size, so it cannot give way. */
function widestFigure(press: Press, blocks: readonly Block[]): number {
  const widths = blocks.map((block): number => {
    if (block.kind === 'figure') return sizeOf(figureFor(press.handout, block)).width * mm;
    if (block.kind === 'beside') return widestFigure(press, [...block.left, ...block.right]);
    return block.kind === 'page' ? Number.POSITIVE_INFINITY : 0;
  });
  return Math.max(0, ...widths);
}
