import { hatch } from '../../draw/hatch.js';
import { inks } from '../../draw/inks.js';
import { printDrawing } from './drawing.js';
import { mm, textWidthMm } from './page.js';
import type { Press } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setWithoutWidow } from './text.js';

/** The draft mark, set for its place between two hatched ends. */
export interface DraftBand {
  readonly passage: Passage;
  /** Points: from the frame to the words, and the whole band. */
  readonly over: number;
  readonly height: number;
}

/** Width of a hatched end, in mm. */
const end = 12;

/** The band is as high as its words ask for; null for a handout that is approved. */
export function draftBand({
  type,
  handout,
  dense,
}: Omit<Press, 'sheet' | 'band'>): DraftBand | null {
  if (handout.draft === null) return null;
  const voice = { ...type.label, colour: inks.ink, bold: true as const };
  const room = (textWidthMm(handout.paper) - 2 * end - 6) * mm;
  const passage = setWithoutWidow([{ text: handout.draft }], voice, room);
  const over = (dense ? 0.5 : 1.1) * mm;
  return { passage, over, height: passage.height + 2 * over };
}

/** On every page, read aloud once. */
export function printDraftBand(press: Press, root: Tag, page: number): void {
  const { sheet, doc, band } = press;
  if (!band) return;
  const { left, right, head } = sheet;
  aside(press, () => {
    doc.lineWidth(1.2).strokeColor(inks.ink);
    doc.rect(left, head, right - left, band.height).stroke();
    const box = { left: 0, top: 0, right: end, bottom: band.height / mm };
    const marks = hatch(box, 2.4, { colour: inks.ink, width: 0.42 });
    const drawing = { width: end, height: band.height / mm, marks };
    printDrawing(doc, drawing, { x: left, y: head });
    printDrawing(doc, drawing, { x: right - end * mm, y: head });
  });
  const place = { x: (left + right - band.passage.width) / 2, y: head + band.over };
  if (page > 1) {
    aside(press, () => printPassage(press, band.passage, { place, align: 'middle' }), 'Pagination');
  } else {
    const into = { tag: tag(press, root, 'P'), type: 'P' };
    printPassage(press, band.passage, { place, align: 'middle', into });
  }
}
