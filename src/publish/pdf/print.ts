import PDFDocument from 'pdfkit';
import type { Block, Handout } from '../../words/handout.js';
import { faces } from '../fonts.js';
import { calloutPieces } from './callout.js';
import { draftBand, printDraftBand } from './draft-band.js';
import { figurePieces } from './figure.js';
import { describe, openingInfo } from './metadata.js';
import { type Sheet, sheetFor } from './page.js';
import { type Placed, paginate } from './paginate.js';
import { pairsPieces } from './pairs.js';
import type { Piece, Press } from './press.js';
import { codePieces, headingPieces, listPieces, paragraphPieces } from './prose.js';
import { footHeight, mastheadPiece, printFoot, printRunningHead } from './running.js';
import { tablePieces } from './table.js';
import { rootTag, type Tag } from './tags.js';
import { typeScale } from './type-scale.js';

/** Prints a handout as a tagged PDF; the same handout gives the same bytes on every machine. */
export async function printPdf(handout: Handout): Promise<Uint8Array> {
  const doc = new PDFDocument({
    autoFirstPage: false,
    pdfVersion: '1.7',
    tagged: true,
    lang: handout.language,
    displayTitle: true,
    font: faces.regular,
    info: openingInfo(handout),
  });
  const bytes = gathered(doc);
  const type = typeScale(handout);
  const band = draftBand({ doc, type, handout });
  const sheet = sheetFor(handout.paper, {
    band: band?.height ?? 0,
    head: type.small.leading,
    foot: footHeight({ doc, type, handout }),
  });
  const press: Press = { doc, sheet, type, handout, band };
  const root = rootTag(press);
  const last = handout.largeType && handout.code ? [handout.code] : [];
  const [first, ...rest] = piecesOf(press, root, [...handout.blocks, ...last]);
  if (!first) throw new Error(`the handout ${JSON.stringify(handout.title)} has no blocks`);
  // A page block that opens the handout shares the first page with the masthead.
  const pieces = [mastheadPiece(press, root), { ...first, startsPage: false }, ...rest];
  const pages = withoutTail(pieces, sheet);
  pages.forEach((placed, i) => {
    doc.addPage({ size: [sheet.width, sheet.height], margin: 0 });
    printDraftBand(press, root, i + 1);
    if (i > 0) printRunningHead(press);
    placed.forEach(({ piece, y, again }, k) => {
      piece.print({ x: sheet.left, y, first: k === 0, again });
    });
    printFoot(press, i + 1, pages.length);
  });
  root().end();
  describe(doc, handout);
  doc.end();
  return bytes;
}

function piecesOf(press: Press, root: Tag, blocks: readonly Block[]): Piece[] {
  return blocks.flatMap((block) => piecesFor(press, root, block));
}

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
    case 'page': {
      const [first, ...rest] = piecesOf(press, root, block.blocks);
      return first ? [{ ...first, startsPage: true }, ...rest] : [];
    }
  }
}

/** Takes a little air from between the blocks where that saves a page: a tail of a few lines is easily lost. */
function withoutTail(pieces: readonly Piece[], sheet: Sheet): Placed[][] {
  const tries = [1, 0.85, 0.7, 0.55].map((air) =>
    paginate(
      pieces.map((piece) => ({ ...piece, before: piece.before * air })),
      sheet,
    ),
  );
  const fewest = Math.min(...tries.map((pages) => pages.length));
  return tries.find((pages) => pages.length === fewest) as Placed[][];
}

async function gathered(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  for await (const chunk of doc as AsyncIterable<Uint8Array>) chunks.push(chunk);
  return new Uint8Array(Buffer.concat(chunks));
}
