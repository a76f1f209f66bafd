import { inks } from '../../draw/inks.js';
import type { Block, Cell, Column } from '../../words/handout.js';
import { mm } from './page.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag, within } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';

type Table = Extract<Block, { kind: 'table' }>;

interface Slot {
  readonly column: Column;
  /** Points from the table's left edge. */
  readonly x: number;
  readonly width: number;
}

/** Between columns, in points. */
const gutter = 14;
const box = 4.2 * mm;

/** Caption, column titles (again on every page the table runs on to) and rows, none of them split. */
export function tablePieces(press: Press, root: Tag, block: Table): Piece[] {
  const table = tag(press, root, 'Table');
  const slots = slotsFor(press, block);
  const header = headerPiece(press, table, slots);
  const rows = block.rows.map((row, i) => {
    if (row.length !== slots.length) {
      throw new Error(`row ${i + 1} of ${JSON.stringify(block.caption)} has ${row.length} cells`);
    }
    // One row alone under repeated titles looks like a mistake, except where rows are few and tall.
    return {
      ...rowPiece(press, table, slots, row, header),
      keepsWithNext: block.rows.length > 3 && i === block.rows.length - 2,
    };
  });
  return [captionPiece(press, table, block.caption), header, ...rows];
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
  const pad = type.cell.size * 0.34;
  const set = cells.map((cell, i) => setCell(press, cell, slots[i] as Slot));
  const inner = Math.max(...set.map(({ height }) => height));
  // A line of text stands beside the middle of its boxes; longer text starts at the top with them.
  const boxesRule = cells.some(({ kind }, i) => kind === 'ticks' && set[i]?.height === inner);
  const height = inner + 2 * pad;
  return piece({
    height,
    headedBy,
    print: ({ x, y }) => {
      const row = tag(press, table, 'TR');
      set.forEach((cell, i) => {
        const slot = slots[i] as Slot;
        const drop = boxesRule ? (inner - cell.height) / 2 : 0;
        cell.print({ x: x + slot.x, y: y + pad + drop }, tag(press, row, 'TD'));
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

interface SetCell {
  readonly height: number;
  readonly print: (place: Place, into: Tag) => void;
}

function setCell(press: Press, cell: Cell, slot: Slot): SetCell {
  if (cell.kind === 'ticks') return tickBoxes(press, cell.labels, slot);
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

/** Boxes drawn as lines, each with its label under it, spread over the column in as many rows as the labels ask for. */
function tickBoxes(press: Press, labels: readonly string[], slot: Slot): SetCell {
  const { small } = press.type;
  const across = boxesAcross(press, labels, slot.width);
  const step = slot.width / across;
  const names = labels.map((text) => setPassage(press, [{ text }], small, step - 2));
  const tall = box + 2 + Math.max(0, ...names.map(({ height }) => height));
  const rows = Math.ceil(labels.length / across);
  const gap = 5;
  return {
    height: rows * tall + (rows - 1) * gap,
    print: ({ x, y }, into) => {
      into();
      names.forEach((name, i) => {
        const left = x + (i % across) * step;
        const top = y + Math.floor(i / across) * (tall + gap);
        within(press, into, 'TD', () => {
          press.doc.lineWidth(0.9).strokeColor(inks.ink);
          press.doc.roundedRect(left + (step - box) / 2, top, box, box, 1).stroke();
          printPassage(press, name, { place: { x: left + 1, y: top + box + 2 }, align: 'middle' });
        });
      });
    },
  };
}

/** The most boxes in a row whose labels stay whole words on two lines, in rows of even length. */
function boxesAcross(press: Press, labels: readonly string[], width: number): number {
  const { small } = press.type;
  const widthOf = (text: string) =>
    setPassage(press, [{ text }], small, Number.POSITIVE_INFINITY).lines[0]?.width ?? 0;
  const widest = Math.max(0, ...labels.flatMap((label) => label.split(' ')).map(widthOf));
  for (let most = labels.length; most > 1; most--) {
    const room = width / most - 2;
    const lines = labels.map((text) => setPassage(press, [{ text }], small, room).lines.length);
    if (widest + 2 > room || Math.max(...lines) > 2) continue;
    return Math.ceil(labels.length / Math.ceil(labels.length / most));
  }
  return 1;
}
