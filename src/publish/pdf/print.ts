import PDFDocument from 'pdfkit';
import { onPaper } from '../../words/exercise-on-paper.js';
import type { Block, Handout } from '../../words/handout.js';
import { besidePieces } from './beside.js';
import { calloutPieces } from './callout.js';
import { type Lay, sheetInColumns, sheetOverPages } from './columns.js';
import { draftBand, printDraftBand } from './draft-band.js';
import { figurePieces } from './figure.js';
import { gatherBytes, gatherContent } from './gathered.js';
import { describe, openingInfo } from './metadata.js';
import { sheetFor } from './page.js';
import { type Placed, paginate } from './paginate.js';
import { pairsPieces } from './pairs.js';
import type { Piece, Press } from './press.js';
import {
  codePieces,
  headingPieces,
  listPieces,
  paragraphPieces,
  runInPieces,
  smallPieces,
} from './prose.js';
import { footHeight, mastheadPiece, printFoot, printRunningHead } from './running.js';
import { tablePieces } from './table.js';
import { rootTag, type Tag } from './tags.js';
import { typeScale } from './type-scale.js';
import { registerFaces } from './typefaces.js';

/** Prints a handout as a tagged PDF; the same handout gives the same bytes on every machine. */
export function printPdf(handout: Handout): Uint8Array {
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    lang: handout.language,
    displayTitle: true,
    // Its default would be a face of its own that is never printed.
    font: null as unknown as string,
    info: openingInfo(handout),
  });
  registerFaces(doc);
  const turn = gatherContent(doc);
  const bytes = gatherBytes(doc);
  const { press, root, pages } = laidOut(doc, handout);
  const { sheet } = press;
  pages.forEach((placed, i) => {
    turn();
    doc.addPage({ size: [sheet.width, sheet.height], margin: 0 });
    printDraftBand(press, root, i + 1);
    if (i > 0) printRunningHead(press);
    placed.forEach(({ piece, y, again }, k) => {
      piece.print({ x: sheet.left, y, first: k === 0, again });
    });
    printFoot(press, i + 1, pages.length);
  });
  turn();
  root().end();
  describe(doc, handout);
  doc.end();
  return bytes();
}

interface LaidOut {
  readonly press: Press;
  readonly root: Tag;
  readonly pages: Placed[][];
}

/**
 * An owner's sheet on one page in two columns where that holds it. Else with a little less air between the blocks, and
 * then with type a little smaller, where that saves a page: a tail of a few lines is easily lost, and an owner looks at
 * one sheet of paper, not at two.
 */
function laidOut(doc: PDFKit.PDFDocument, handout: Handout): LaidOut {
  if (handout.blocks.length === 0) {
    throw new Error(`the handout ${JSON.stringify(handout.title)} has no blocks`);
  }
  let root: Tag | null = null;
  const setting = (size: number, air: number, dense?: true): { press: Press; root: Tag } => {
    const type = typeScale(handout, size, dense);
    const band = draftBand({ doc, type, air, handout, ...(dense && { dense }) });
    const furniture = {
      band: band?.height ?? 0,
      head: type.small.leading,
      foot: footHeight({ doc, type, air, handout }),
    };
    const sheet = sheetFor(handout.paper, furniture, dense);
    const press: Press = { doc, sheet, type, air, handout, band, ...(dense && { dense }) };
    root ??= rootTag(press);
    return { press, root };
  };
  const onOnePage = (size: number, air: number): OnOnePage | null => {
    const { press, root } = setting(size, air, true);
    const masthead = mastheadPiece(press, root);
    const { top, bottom } = press.sheet;
    const y = top.first + masthead.height + UNDER_MASTHEAD;
    const lay: Lay = (narrow, blocks) => piecesOf(narrow, root, blocks);
    const columns = sheetInColumns(press, handout.blocks, lay, bottom - y);
    if (!columns) return null;
    const placed = [
      { piece: masthead, y: top.first, again: false },
      { piece: columns.piece, y, again: false },
    ];
    return { press, root, pages: [placed], filled: columns.filled };
  };
  const onTwoPages = (size: number, air: number): LaidOut | null => {
    const { press, root } = setting(size, air, true);
    const masthead = mastheadPiece(press, root);
    const { top, bottom } = press.sheet;
    const y = top.first + masthead.height + UNDER_MASTHEAD;
    const lay: Lay = (narrow, blocks) => piecesOf(narrow, root, blocks);
    const pages = sheetOverPages(press, handout.blocks, lay, [bottom - y, bottom - top.later]);
    if (!pages) return null;
    const [first, second] = pages as [Piece, Piece];
    return {
      press,
      root,
      pages: [
        [
          { piece: masthead, y: top.first, again: false },
          { piece: first, y, again: false },
        ],
        [{ piece: second, y: top.later, again: false }],
      ],
    };
  };
  const lay = (size: number, air: number, dense?: true): LaidOut => {
    const { press, root } = setting(size, air, dense);
    const last = handout.largeType && handout.code ? [handout.code] : [];
    const [first, ...rest] = piecesOf(press, root, [...handout.blocks, ...last]) as [Piece];
    // A page block that opens the handout shares the first page with the masthead.
    const pieces = [mastheadPiece(press, root), { ...first, startsPage: false }, ...rest];
    const spaced = pieces.map((piece) => ({ ...piece, before: piece.before * air }));
    return { press, root, pages: paginate(spaced, press.sheet) };
  };
  const plainOwner = handout.reader === 'owner' && !handout.largeType;
  if (plainOwner) {
    const one = onOnePage(...DENSEST);
    if (one) {
      const likely = ON_ONE_PAGE.filter(({ size }) => one.filled * growth(size) <= 1);
      return firstOf(likely, (each) => loosest(each, onOnePage)) ?? one;
    }
    // One page cannot be had, so nothing need be pressed into two that fits them as it is.
    const usual = lay(1, 1);
    if (usual.pages.length === 2) return usual;
  }
  const sizes = handout.largeType ? [1] : SIZES[handout.reader];
  const last = sizes.at(-1) as number;
  const densest = plainOwner ? lay(...LAST_RESORT) : lay(last, LEAST_AIR);
  if (plainOwner && densest.pages.length > 2) {
    const denser = lay(...LAST_RESORT, true);
    if (denser.pages.length === 2) return denser;
    const columns = firstOf(ON_ONE_PAGE, ({ size, airs }) =>
      onTwoPages(size, airs.at(-1) as number),
    );
    if (columns) return columns;
    if (denser.pages.length < densest.pages.length) return denser;
  }
  const fits = ({ pages }: LaidOut) => pages.length <= densest.pages.length;
  const most = densest.pages.length;
  for (const size of sizes) {
    // A size that cannot do is not set: its letters take more room by more than their height.
    if (plainOwner && extent(densest) * (size / last) ** 1.1 > most) continue;
    // Where the least air does not save the page, more air does not either.
    const tight = size === last && !plainOwner ? densest : lay(size, LEAST_AIR);
    if (!fits(tight)) continue;
    for (const air of MORE_AIR) {
      const loose = lay(size, air);
      if (fits(loose)) return loose;
    }
    return tight;
  }
  return densest;
}

/** How many pages a sheet takes, the last one as far as it is filled. */
function extent({ press, pages }: LaidOut): number {
  const { top, bottom } = press.sheet;
  const end = pages.at(-1)?.at(-1);
  const used = end ? end.y + end.piece.height - top.later : 0;
  return pages.length - 1 + used / (bottom - top.later);
}

interface OnOnePage extends LaidOut {
  /** Share of its room that the higher column takes. */
  readonly filled: number;
}

/**
 * How much more room a sheet takes at a size than at the densest, at least: wider letters make more lines, and these are
 * higher, which would be the square; short lines have room to grow. So a size that cannot fit is not tried.
 */
const growth = (size: number): number => (size / DENSEST[0]) ** 1.5;

interface SizeAndAirs {
  readonly size: number;
  /** Falling; the last is the least that the size allows. */
  readonly airs: readonly [...number[], least: number];
}

/** At one size with as much air as fits; null where the least does not. */
function loosest<T>(
  { size, airs }: SizeAndAirs,
  set: (size: number, air: number) => T | null,
): T | null {
  const least = set(size, airs.at(-1) as number);
  return least && (firstOf(airs.slice(0, -1), (air) => set(size, air)) ?? least);
}

function firstOf<A, T>(all: readonly A[], find: (one: A) => T | null): T | null {
  for (const one of all) {
    const found = find(one);
    if (found !== null) return found;
  }
  return null;
}

/** From the masthead to two columns, in points. */
const UNDER_MASTHEAD = 4;

/** Size and air of a sheet in two columns on one page, what reads best first: the letters of the text are 9.5 points or more. */
const ON_ONE_PAGE: readonly SizeAndAirs[] = [
  { size: 1, airs: [1, 0.7] },
  { size: 0.97, airs: [0.85, 0.55] },
  { size: 0.94, airs: [0.7, 0.45] },
  { size: 0.915, airs: [0.6, 0.45] },
];
const DENSEST = [0.915, 0.26] as const;

/** Shares of the usual air between the blocks that may be tried at each size. */
const LEAST_AIR = 0.55;
const MORE_AIR = [1, 0.85, 0.7] as const;

/** Shares of the usual size that may be tried, the largest first. */
const SIZES: Readonly<Record<Handout['reader'], readonly number[]>> = {
  owner: [1, 0.97, 0.94, 0.92],
  learner: [1],
  student: [1],
};

/** What is tried after all others, for the owner alone: two pages are one sheet. */
const LAST_RESORT = [0.92, 0.45] as const;

function piecesOf(press: Press, root: Tag, blocks: readonly Block[]): Piece[] {
  return blocks.flatMap((block, i): Piece[] => {
    // A short heading and its paragraph share a line where one page is short of them.
    const runIn = press.dense ? runInPieces(press, root, block, blocks[i + 1]) : null;
    if (runIn) return runIn;
    const before = blocks[i - 1];
    if (press.dense && before && runInPieces(press, root, before, block)) return [];
    return piecesFor(press, root, block);
  });
}

/** A question is answered from its drawing, so both stand on one page with the lines to write on, where they fit on one. */
const keptTogether = (pieces: readonly Piece[]): Piece[] =>
  pieces.map((piece, i) => (i < pieces.length - 1 ? { ...piece, keepsWithNext: true } : piece));

function piecesFor(press: Press, root: Tag, block: Block): Piece[] {
  switch (block.kind) {
    case 'heading':
      return headingPieces(press, root, block);
    case 'paragraph':
      return paragraphPieces(press, root, block);
    case 'list':
      return listPieces(press, root, block);
    case 'pairs':
      return pairsPieces(press, root, block);
    case 'table':
      return tablePieces(press, root, block);
    case 'callout':
      return calloutPieces(press, root, block);
    case 'figure':
      return figurePieces(press, root, block);
    case 'code':
      return codePieces(press, root, block);
    case 'beside':
      return besidePieces(press, block, (narrow, blocks) => piecesOf(narrow, root, blocks));
    case 'exercise':
      return keptTogether(piecesOf(press, root, onPaper(block)));
    case 'fold':
      if (block.small) return smallPieces(press, root, block);
      return piecesOf(press, root, [
        { kind: 'heading', level: 3, text: block.title },
        ...block.blocks,
      ]);
    case 'page': {
      const [first, ...rest] = piecesOf(press, root, block.blocks);
      return first ? [{ ...first, startsPage: true }, ...rest] : [];
    }
  }
}
