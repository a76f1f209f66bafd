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

/** The edges of the paper that stay empty, and what parts the rest from the band and the foot, in points. */
const USUAL = { side: usualSide, head: 11 * mm, foot: 8.5 * mm, underBand: 4 * mm, overFoot: 8 };
/** Most printers reach this far. */
const DENSE = { side: 9 * mm, head: 7 * mm, foot: 6.8 * mm, underBand: 1.7 * mm, overFoot: 4 };

/** Heights in points of what stands on every page; 0 for what does not. */
export interface Furniture {
  readonly band: number;
  /** The running head of every page but the first. */
  readonly head: number;
  readonly foot: number;
}

/** The fixed places of a page; both papers leave 178 mm or more for the text. */
export function sheetFor(paper: Handout['paper'], furniture: Furniture, dense = false): Sheet {
  const edge = dense ? DENSE : USUAL;
  const [width, height] = sizes[paper].map((length) => length * mm) as [number, number];
  const under = edge.head + (furniture.band === 0 ? 0 : furniture.band + edge.underBand);
  const foot = height - edge.foot;
  return {
    width,
    height,
    left: edge.side,
    right: width - edge.side,
    head: edge.head,
    top: { first: under, later: under + furniture.head + 13 },
    bottom: foot - furniture.foot - edge.overFoot,
    foot,
  };
}

/** Width of the text area in mm. */
export const textWidthMm = (paper: Handout['paper']) => sizes[paper][0] - (2 * usualSide) / mm;
