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
  /** Printed for a reader who sees poorly: no letter smaller than 18 points. */
  readonly largeType?: true;
  readonly title: string;
  /** One line under the title: for whom and about what. */
  readonly lead: string;
  /** Who hands it out: name in the first line, address and telephones below; the public documents name no clinic. */
  readonly sender: readonly string[];
  /** Shown on every page until a veterinarian has approved the sheet; null once approved. */
  readonly draft: string | null;
  /** Small line at the foot of every page. */
  readonly foot: string;
  /** The date of the record, `YYYY-MM-DD`; the only date a file's metadata may carry. Null where dates are withheld. */
  readonly dated: string | null;
  /** A picture for the reader's phone, with its words: beside the title, or after the last block in large type. */
  readonly code?: FigureBlock;
  readonly blocks: readonly Block[];
}

export type FigureBlock = Extract<Block, { kind: 'figure' }>;

export interface ExerciseBlock {
  readonly kind: 'exercise';
  /** Unique in the handout; what judges the answer stands under it among the data of the page's scripts. */
  readonly name: string;
  readonly title: string;
  readonly question: readonly Said[];
  readonly figure: FigureBlock | null;
  readonly asks: Asked;
  /** For who has no scripts, and for the sheet of answers. */
  readonly answer: readonly Said[];
  readonly labels: { readonly check: string; readonly answer: string };
}

/** What a reader gives as an answer. */
export type Asked =
  | { readonly kind: 'numbers'; readonly fields: readonly AskedNumber[] }
  | { readonly kind: 'choice'; readonly options: readonly AskedOption[] }
  /** The same choice for each of several things. */
  | {
      readonly kind: 'each';
      readonly items: readonly AskedOption[];
      readonly options: readonly AskedOption[];
    };

interface AskedNumber {
  readonly name: string;
  readonly label: string;
  readonly unit: string;
}

export interface AskedOption {
  readonly name: string;
  readonly label: string;
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
      /** The heading just above shows what the caption says: the caption is then only read aloud. */
      readonly captionBy?: 'heading';
      readonly columns: readonly Column[];
      readonly rows: readonly (readonly Cell[])[];
    }
  /** Framed text: `first` is the one thing to remember, `note` an aside. */
  | {
      readonly kind: 'callout';
      readonly tone: 'first';
      readonly title: string;
      readonly said: readonly Said[];
      /** A small one that shows what is said, with a caption of few words. */
      readonly picture?: FigureBlock;
    }
  | {
      readonly kind: 'callout';
      readonly tone: 'note';
      readonly title: string;
      readonly said: readonly Said[];
      /** Nothing to act on: where one page is short of lines it is set as running text after its title. */
      readonly minor?: true;
    }
  /** What to act on, and whom to call: a reader in a hurry finds both in one frame. */
  | {
      readonly kind: 'callout';
      readonly tone: 'warning';
      readonly title: string;
      readonly said: readonly Said[];
      readonly telephones: readonly Telephone[];
    }
  | {
      readonly kind: 'figure';
      /** File name stem, unique in the handout. */
      readonly name: string;
      readonly figure: Figure;
      readonly caption: Said;
      /** The figure in words, for those who cannot see it. */
      readonly alternative: string;
      /** What it shows in rows, for the page alone, where it opens at a wish. */
      readonly table?: Extract<Block, { kind: 'table' }>;
    }
  /** Preformatted text in the mono face. */
  | { readonly kind: 'code'; readonly text: string; readonly language: string }
  /** Short parts side by side where there is room, else the left one first; on paper never split. */
  | { readonly kind: 'beside'; readonly left: readonly Block[]; readonly right: readonly Block[] }
  /** A question with a way to answer it: on a page a form, on paper a place to write. */
  | ExerciseBlock
  /** What few will need: folded away on a page, printed in full on paper. */
  | {
      readonly kind: 'fold';
      readonly title: string;
      readonly blocks: readonly Block[];
      /** On paper in small type under its title, as part of what stands before it. */
      readonly small?: true;
    }
  /** Keeps the blocks together and, on paper, starts a new page before them. */
  | { readonly kind: 'page'; readonly blocks: readonly Block[] };

export interface Column {
  readonly title: string;
  readonly align: 'start' | 'end' | 'middle';
  /** Share of the table's width; the shares need not add up to 1. */
  readonly share: number;
}

export interface Telephone {
  /** When to call it, and who answers. */
  readonly label: string;
  readonly number: string;
}

/** Passages one below the other, a calendar of boxes to tick by hand, or lines to write on. */
export type Cell =
  | { readonly kind: 'said'; readonly said: readonly Said[] }
  | {
      readonly kind: 'ticks';
      readonly days: readonly TickDay[];
      /** The same by hours, for paper; absent where the days share too few of them. */
      readonly grid?: TickGrid;
      /** A small picture under the calendar. */
      readonly figure?: FigureBlock;
    }
  | {
      readonly kind: 'lines';
      /** What stands at the begin of each line. */
      readonly labels: readonly string[];
      /** A small picture under the lines. */
      readonly figure?: FigureBlock;
    };

/** Hours down the side, days along the top. */
export interface TickGrid {
  /** In the order of the clock. */
  readonly hours: readonly string[];
  /** Each one stretch of the grid, of as many days as stand side by side. */
  readonly weeks: readonly (readonly GridDay[])[];
}

export interface GridDay {
  /** As it is read aloud. */
  readonly day: string;
  /** The same for a narrow column: the month is named on the first day of a stretch and where it changes. */
  readonly weekday: string;
  readonly date: string;
  /** Whether a dose is due, hour by hour. */
  readonly due: readonly boolean[];
}

/** A day of the calendar, with a box for each label below it. */
export interface TickDay {
  readonly day: string;
  readonly boxes: readonly string[];
}

export type Figure =
  | { readonly kind: 'drawing'; readonly drawing: Drawing }
  | { readonly kind: 'image'; readonly image: RasterImage };

/** A JPEG rendered beforehand, with its true size on paper. */
export interface RasterImage {
  readonly bytes: Uint8Array;
  readonly widthMm: number;
  readonly heightMm: number;
}
