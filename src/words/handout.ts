import type { Drawing } from '../draw/drawing.js';

/**
 * What one reader is handed, as a tree of blocks. The page and the PDF are both printed from this tree,
 * so they cannot say different things.
 */
export interface Handout {
  readonly reader: 'owner' | 'learner' | 'student';
  /** BCP 47 tag of the text, for example `en` or `es`. */
  readonly language: string;
  readonly paper: 'A4' | 'Letter';
  readonly title: string;
  /** One line under the title: for whom and about what. */
  readonly lead: string;
  /** Who hands it out: name in the first line, address and telephones below; the public documents name no clinic. */
  readonly sender: readonly string[];
  /** Shown on every page until a veterinarian has approved the sheet; null once approved. */
  readonly draft: string | null;
  /** Small line at the foot of every page. */
  readonly foot: string;
  /**
   * Page number at the foot, with the places `{page}` and `{pages}`, for example `Page {page} of {pages}`;
   * without it the foot says `1 / 2`, which needs no language.
   */
  readonly folio?: string;
  /** The date of the record, `YYYY-MM-DD`; the only date a file's metadata may carry. Null where dates are withheld. */
  readonly dated: string | null;
  readonly blocks: readonly Block[];
}

/** A piece of running text. */
export interface Run {
  readonly text: string;
  readonly strong?: true;
  readonly emphasis?: true;
  readonly code?: true;
  readonly href?: string;
}

/** A sentence or short passage, with the ids of the facts that it states. */
export interface Said {
  readonly runs: readonly Run[];
  readonly facts: readonly string[];
}

export type Block =
  | { readonly kind: 'heading'; readonly level: 2 | 3; readonly text: string }
  | { readonly kind: 'paragraph'; readonly said: Said }
  | { readonly kind: 'list'; readonly ordered: boolean; readonly items: readonly Said[] }
  /** Label and value side by side. */
  | { readonly kind: 'pairs'; readonly rows: readonly (readonly [label: string, value: Said])[] }
  | {
      readonly kind: 'table';
      readonly caption: string;
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly Cell[])[];
    }
  /** Framed text: `first` is the one thing to remember, `warning` what to act on, `note` an aside. */
  | {
      readonly kind: 'callout';
      readonly tone: 'first' | 'warning' | 'note';
      readonly title: string;
      readonly said: readonly Said[];
    }
  | {
      readonly kind: 'figure';
      /** File name stem, unique in the handout. */
      readonly name: string;
      readonly figure: Figure;
      readonly caption: Said;
      /** The figure in words, for those who cannot see it. */
      readonly alternative: string;
    }
  /** Preformatted text in the mono face. */
  | { readonly kind: 'code'; readonly text: string; readonly language: string }
  /** Keeps the blocks together and, on paper, starts a new page before them. */
  | { readonly kind: 'page'; readonly blocks: readonly Block[] };

export interface Column {
  readonly title: string;
  readonly align: 'start' | 'end' | 'middle';
  /** Share of the table's width; the shares need not add up to 1. */
  readonly share: number;
}

/** Passages one below the other, or a row of boxes to tick by hand, each with the label under it. */
export type Cell =
  | { readonly kind: 'said'; readonly said: readonly Said[] }
  | { readonly kind: 'ticks'; readonly labels: readonly string[] };

export type Figure =
  | { readonly kind: 'drawing'; readonly drawing: Drawing }
  | { readonly kind: 'image'; readonly image: RasterImage };

/** A picture rendered beforehand, with its true size on paper. */
export interface RasterImage {
  readonly png: Uint8Array;
  readonly widthMm: number;
  readonly heightMm: number;
}
