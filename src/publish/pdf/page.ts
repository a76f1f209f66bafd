import type { Handout } from '../../words/handout.js';

/** Points in a millimetre; every measure of the sheet is kept in points, figures in mm. */
export const mm = 72 / 25.4;

export interface Sheet {
  /** All in points, from the top left corner. */
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  /** Top of the draft band, or of the first line where there is none. */
  readonly head: number;
  /** Where the blocks of the first and of every later page begin. */
  readonly top: { readonly first: number; readonly later: number };
  /** Where blocks must end. */
  readonly bottom: number;
  /** Where the last line of the foot ends. */
  readonly foot: number;
}

const sizes = { A4: [210, 297], Letter: [215.9, 279.4] } as const;
const usualSide = 14 * mm;
/** Most printers reach this far. */
const narrowSide = 12.2 * mm;

/** Heights in points of what stands on every page; 0 for what does not. */
export interface Furniture {
  readonly band: number;
  /** The running head of every page but the first. */
  readonly head: number;
  readonly foot: number;
}

/** The fixed places of a page; both papers leave 178 mm or more for the text. */
export function sheetFor(paper: Handout['paper'], furniture: Furniture, dense = false): Sheet {
  const side = dense ? narrowSide : usualSide;
  const [width, height] = sizes[paper].map((length) => length * mm) as [number, number];
  const head = 11 * mm;
  const under = head + (furniture.band === 0 ? 0 : furniture.band + (dense ? 2.5 : 4) * mm);
  const foot = height - 8.5 * mm;
  return {
    width,
    height,
    left: side,
    right: width - side,
    head,
    top: { first: under, later: under + furniture.head + 13 },
    bottom: foot - furniture.foot - (dense ? 6 : 8),
    foot,
  };
}

/** Width of the text area in mm. */
export const textWidthMm = (paper: Handout['paper']) => sizes[paper][0] - (2 * usualSide) / mm;
