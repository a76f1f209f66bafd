import { inks } from '../../draw/inks.js';
import type { Block, Cell, Column } from '../../words/handout.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';
import { tickCalendar } from './ticks.js';

type Table = Extract<Block, { kind: 'table' }>;

interface Slot {
  readonly column: Column;
  /** Points from the table's left edge. */
  readonly x: number;
  readonly width: number;
}

/** Between columns, in points. */
const gutter = 14;

/** Caption, column titles (again on every page the table runs on to) and rows, none of them split. */
export function tablePieces(press: Press, root: Tag, block: Table): Piece[] {
  const spoken = block.captionBy === 'heading' ? { summary: block.caption } : {};
  const table = tag(press, root, 'Table', spoken);
  const slots = slotsFor(press, block);
  const header = headerPiece(press, table, slots);
  const rows = block.rows.map((row, i) => {
    if (row.length !== slots.length) {
      throw new Error(`row ${i + 1} of ${JSON.stringify(block.caption)} has ${row.length} cells`);
    }
    return rowPiece(press, table, slots, row, header);
  });
  const above =
    block.captionBy === 'heading'
      ? [{ ...header, before: press.type.body.size * 0.5 }]
      : [captionPiece(press, table, block.caption), header];
  return [...above, ...keptTogether(press, rows)];
}

/**
 * A short table stays whole. A long one runs on with at least three rows on either side, since a row or two under
 * repeated titles look like a mistake; few and tall rows part anywhere.
 */
function keptTogether({ sheet, type }: Press, rows: readonly Piece[]): Piece[] {
  const height = rows.reduce((sum, row) => sum + row.height, 0);
  const tall = rows.some((row) => row.height > 4 * type.cell.leading);
  const short = !tall && height < (sheet.bottom - sheet.top.later) * 0.2;
  const last = rows.length - 1;
  const many = rows.length > 5;
  return rows.map((row, i) => ({
    ...row,
    keepsWithNext: i < last && (short || (many && (i < 2 || i >= last - 2))),
  }));
}

function slotsFor(press: Press, block: Table): Slot[] {
  const shares = block.columns.reduce((sum, column) => sum + column.share, 0);
  const whole = press.sheet.right - press.sheet.left + gutter;
  let x = 0;
  return block.columns.map((column) => {
    const slot = { column, x, width: (whole * column.share) / shares - gutter };
    x += slot.width + gutter;
    return slot;
  });
}

function captionPiece(press: Press, table: Tag, caption: string): Piece {
  const { sheet, type } = press;
  const runs = [{ text: caption, strong: true as const }];
  const passage = setPassage(press, runs, type.cell, sheet.right - sheet.left);
  return piece({
    before: type.body.size * 0.9,
    height: passage.height + 3,
    keepsWithNext: true,
    print: (place) =>
      printPassage(press, passage, {
        place,
        into: { tag: tag(press, table, 'Caption'), type: 'Caption' },
      }),
  });
}

function headerPiece(press: Press, table: Tag, slots: readonly Slot[]): Piece {
  const { sheet, type } = press;
  const titles = slots.map(({ column, width }) =>
    setPassage(press, [{ text: column.title }], type.columnTitle, width),
  );
  const tallest = Math.max(...titles.map((title) => title.height));
  const height = tallest + 8;
  return piece({
    height,
    keepsWithNext: true,
    print: ({ x, y, again }) => {
      aside(press, () => {
        press.doc.lineWidth(0.5).strokeColor(inks.ink);
        press.doc.moveTo(x, y).lineTo(sheet.right, y).stroke();
        press.doc.lineWidth(1.1);
        press.doc
          .moveTo(x, y + height)
          .lineTo(sheet.right, y + height)
          .stroke();
      });
      const row = again ? null : tag(press, table, 'TR');
      const print = (title: Passage, slot: Slot, into?: { tag: Tag; type: string }) => {
        const place = { x: x + slot.x, y: y + 4 + tallest - title.height };
        const how = { place, align: slot.column.align };
        printPassage(press, title, into ? { ...how, into } : how);
      };
      titles.forEach((title, i) => {
        const slot = slots[i];
        if (!slot) return;
        if (!row) aside(press, () => print(title, slot), 'Pagination');
        else print(title, slot, { tag: tag(press, row, 'TH', { scope: 'Column' }), type: 'TH' });
      });
    },
  });
}

function rowPiece(
  press: Press,
  table: Tag,
  slots: readonly Slot[],
  cells: readonly Cell[],
  headedBy: Piece,
): Piece {
  const { sheet, type } = press;
  const pad = type.cell.size * 0.27;
  const set = cells.map((cell, i) => setCell(press, cell, slots[i] as Slot));
  const inner = Math.max(...set.map(({ height }) => height));
  const height = inner + 2 * pad;
  return piece({
    height,
    headedBy,
    print: ({ x, y }) => {
      const row = tag(press, table, 'TR');
      set.forEach((cell, i) => {
        const slot = slots[i] as Slot;
        cell.print({ x: x + slot.x, y: y + pad }, tag(press, row, 'TD'));
      });
      aside(press, () => {
        press.doc.lineWidth(0.4).strokeColor(inks.rule);
        press.doc
          .moveTo(x, y + height)
          .lineTo(sheet.right, y + height)
          .stroke();
      });
    },
  });
}

/** A cell's content, set for its column. */
export interface SetCell {
  readonly height: number;
  readonly print: (place: Place, into: Tag) => void;
}

function setCell(press: Press, cell: Cell, slot: Slot): SetCell {
  if (cell.kind === 'ticks') return tickCalendar(press, cell.days, slot.width);
  const { cell: voice } = press.type;
  const passages = cell.said.map(({ runs }) => setPassage(press, runs, voice, slot.width));
  const gap = voice.size * 0.22;
  const height = passages.reduce((sum, passage) => sum + passage.height + gap, -gap);
  return {
    height: Math.max(0, height),
    print: ({ x, y }, into) => {
      // Made even for an empty cell, or the columns of the row would shift for a listener.
      into();
      let top = y;
      for (const passage of passages) {
        // A cell of one passage is that passage; several are told apart as paragraphs.
        const node = passages.length === 1 ? into : tag(press, into, 'P');
        const how = { tag: node, type: passages.length === 1 ? 'TD' : 'P' };
        const place = { x, y: top };
        printPassage(press, passage, { place, align: slot.column.align, into: how });
        top += passage.height + gap;
      }
    },
  };
}
