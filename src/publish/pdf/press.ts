import type { Handout } from '../../words/handout.js';
import type { DraftBand } from './draft-band.js';
import type { Sheet } from './page.js';
import type { TypeScale } from './type-scale.js';

/** What every block needs in order to print itself. */
export interface Press {
  readonly doc: PDFKit.PDFDocument;
  readonly sheet: Sheet;
  readonly type: TypeScale;
  /** Share of the usual space between blocks. */
  readonly air: number;
  readonly handout: Handout;
  readonly band: DraftBand | null;
  /** Set for a column of a sheet in two columns. */
  readonly dense?: true;
}

/** Top left corner, in points. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Where a piece stands on its page. */
interface Standing extends Place {
  /** Nothing stands above it. */
  readonly first: boolean;
  /** A repeat of what was printed before, which screen readers skip. */
  readonly again: boolean;
}

/** A part of a block that is never split between pages. */
export interface Piece {
  /** Points. */
  readonly height: number;
  /** Space above, in points; dropped at the head of a page. */
  readonly before: number;
  /** Must not be the last on its page. */
  readonly keepsWithNext: boolean;
  readonly startsPage: boolean;
  /** Printed again above this piece where it begins a page: a table's column titles. */
  readonly headedBy?: Piece;
  readonly print: (standing: Standing) => void;
}

export const piece = (part: Pick<Piece, 'height' | 'print'> & Partial<Piece>): Piece => ({
  before: 0,
  keepsWithNext: false,
  startsPage: false,
  ...part,
});
