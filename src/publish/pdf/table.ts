import { inks } from '../../draw/inks.js';
import type { Block, Cell, Column } from '../../words/handout.js';
import { setFigure } from './figure.js';
import { rowsKeptWithNext } from './kept-rows.js';
import { linesToWriteOn } from './lines.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';
import { rowGap, tickCalendar, tickGrid, tickRows } from './ticks.js';

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
  if (hasLargeCalendar(press, block)) return oneColumn(press, table, block);
  const cells = block.rows.map((row, i) => {
    if (row.length !== slots.length) {
      throw new Error(`row ${i + 1} of ${JSON.stringify(block.caption)} has ${row.length} cells`);
    }
    return row.map((cell, k) => {
      const { width, column } = slots[k] as Slot;
      return setCell(press, cell, width, column.align);
    });
  });
  if (cells.some((row) => isTallerThanPage(press, row))) return oneColumn(press, table, block);
  const header = headerPiece(press, table, slots);
  const rows = cells.map((row) => rowPiece(press, table, slots, row, header));
  const above =
    block.captionBy === 'heading'
      ? [{ ...header, before: press.type.body.size * 0.5 }]
      : [captionPiece(press, table, block.caption), header];
  const { sheet, type } = press;
  const kept = rowsKeptWithNext(
    rows.map(({ height }) => height),
    { page: sheet.bottom - sheet.top.later, line: type.cell.leading },
  );
  return [...above, ...rows.map((row, i) => ({ ...row, keepsWithNext: kept[i] ?? false }))];
}

/** In large type a calendar to tick needs the whole width. */
const hasLargeCalendar = ({ sheet, type }: Press, { rows }: Table): boolean =>
  sheet.right - sheet.left < 40 * type.tick.size &&
  rows.some((row) => row.some(({ kind }) => kind !== 'said'));

/** A row that is taller than a page must be parted. */
const isTallerThanPage = ({ sheet, type }: Press, row: readonly SetCell[]): boolean =>
  row.some(({ height }) => height > sheet.bottom - sheet.top.later - 4 * type.cell.leading);

/** The cells of each row one below the other, their passages and calendars parted by pages where they must be. */
function oneColumn(press: Press, table: Tag, block: Table): Piece[] {
  const width = press.sheet.right - press.sheet.left;
  const caption = block.captionBy === 'heading' ? [] : [captionPiece(press, table, block.caption)];
  const slots = block.columns.map((column) => ({
    column: { ...column, align: 'start' as const },
    x: 0,
    width,
  }));
  return [
    ...caption,
    headerInOneColumn(press, table, slots, block),
    ...block.rows.flatMap((row) => rowInOneColumn(press, table, row, width)),
  ];
}

/** The column titles; at the end of the heading's line where one page is short of lines. */
function headerInOneColumn(press: Press, table: Tag, slots: readonly Slot[], block: Table): Piece {
  const header = headerPiece(press, table, slots);
  const { type, sheet } = press;
  if (!press.dense || block.captionBy !== 'heading') {
    return { ...header, before: type.body.size * 0.5 };
  }
  const titles = block.columns.map(({ title }) =>
    setPassage([{ text: title }], type.columnTitle, Number.POSITIVE_INFINITY),
  );
  const widths = titles.map(({ lines }) => lines[0]?.width ?? 0);
  const wide = widths.reduce((sum, width) => sum + width + gutter, -gutter);
  if (wide > (sheet.right - sheet.left) / 2) return { ...header, before: type.body.size * 0.5 };
  return piece({
    height: 3,
    keepsWithNext: true,
    print: ({ x, y }) => {
      const right = x + sheet.right - sheet.left;
      aside(press, () => {
        press.doc.lineWidth(1.1).strokeColor(inks.ink);
        press.doc
          .moveTo(x, y + 1)
          .lineTo(right, y + 1)
          .stroke();
      });
      const row = tag(press, table, 'TR');
      let left = right - wide;
      titles.forEach((title, i) => {
        const into = { tag: tag(press, row, 'TH', { scope: 'Column' }), type: 'TH' };
        printPassage(press, title, { place: { x: left, y: y - title.height }, into });
        left += (widths[i] as number) + gutter;
      });
    },
  });
}

function rowInOneColumn(press: Press, table: Tag, cells: readonly Cell[], width: number): Piece[] {
  const row = tag(press, table, 'TR');
  const pad = press.type.cell.size * 0.3;
  const nodes = cells.map(() => tag(press, row, 'TD'));
  const parts = cells.flatMap((cell, i) => {
    const node = nodes[i] as Tag;
    return cellParts(press, cell, width).map((part) => ({ part, node, of: cell.kind }));
  });
  const below = (press.dense ? 1.4 : 2.5) * pad;
  const inAll = parts.reduce((sum, { part }) => sum + part.height + Math.max(rowGap, pad), below);
  const fitsOnPage = inAll <= press.sheet.bottom - press.sheet.top.later;
  return parts.map(({ part, node, of }, i) => {
    const last = i === parts.length - 1;
    const height = part.height + (last ? below : 0);
    return piece({
      before: of === 'said' ? pad : rowGap,
      height,
      // A drawing on the next page would stand above another medicine, and be taken for it.
      keepsWithNext: !last && (fitsOnPage || of === 'said' || i === parts.length - 2),
      print: ({ x, y }) => {
        // All of them at once, so that an empty cell is there too.
        for (const each of nodes) each();
        part.print({ x, y }, node);
        if (last) rowRule(press, x, y + height);
      },
    });
  });
}

/** Most boxes of a day in one column; a day of more goes on in the next. */
const MOST_BOXES = 12;
/** Most lines of a passage that are never parted. */
const MOST_LINES = 12;

function cellParts(press: Press, cell: Cell, width: number): SetCell[] {
  if (cell.kind === 'said') {
    return cell.said.flatMap(({ runs }) => {
      const passage = setPassage(runs, press.type.cell, width);
      const into = once((node: Tag) => nodeFor(press, cell.said.length, node));
      return Array.from({ length: Math.ceil(passage.lines.length / MOST_LINES) }, (_, i) => {
        const [from, to] = [i * MOST_LINES, Math.min((i + 1) * MOST_LINES, passage.lines.length)];
        return {
          height: (to - from) * passage.voice.leading,
          print: (place: Place, node: Tag) =>
            printPassage(press, passage, { place, from, to, into: into(node) }),
        };
      });
    });
  }
  const figure = cell.figure ? [setFigure(press, cell.figure, width)] : [];
  if (cell.kind === 'lines') return [linesToWriteOn(press, cell.labels, width), ...figure];
  const days = cell.days.flatMap(({ day, boxes }) =>
    Array.from({ length: Math.ceil(boxes.length / MOST_BOXES) }, (_, i) => ({
      day,
      boxes: boxes.slice(i * MOST_BOXES, (i + 1) * MOST_BOXES),
    })),
  );
  const calendar =
    cell.grid && !press.handout.largeType
      ? [tickGrid(press, cell.grid, width)]
      : tickRows(press, days, width);
  return [...calendar, ...figure];
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
  const passage = setPassage(runs, type.cell, sheet.right - sheet.left);
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
    setPassage([{ text: column.title }], type.columnTitle, width),
  );
  // Titles of one column stand one below the other, others on one line; two short ones share it, the last at its end.
  const ofOneColumn = slots.length > 1 && slots.every(({ x }) => x === 0);
  const ink = titles.reduce((sum, { lines }) => sum + (lines[0]?.width ?? 0) + gutter, 0);
  const shared = ofOneColumn && titles.length === 2 && ink <= sheet.right - sheet.left;
  const stacked = ofOneColumn && !shared;
  const tallest = stacked
    ? titles.reduce((sum, title) => sum + title.height, 0)
    : Math.max(...titles.map((title) => title.height));
  const downTo = (i: number) => titles.slice(0, i + 1).reduce((sum, { height }) => sum + height, 0);
  const height = tallest + (press.dense ? 5 : 8);
  return piece({
    height,
    keepsWithNext: true,
    print: ({ x, y, again }) => {
      aside(press, () => {
        press.doc.lineWidth(0.5).strokeColor(inks.ink);
        const right = x + sheet.right - sheet.left;
        press.doc.moveTo(x, y).lineTo(right, y).stroke();
        press.doc.lineWidth(1.1);
        press.doc
          .moveTo(x, y + height)
          .lineTo(right, y + height)
          .stroke();
      });
      const row = again ? null : tag(press, table, 'TR');
      const print = (title: Passage, i: number, into?: { tag: Tag; type: string }) => {
        const slot = slots[i] as Slot;
        const bottom = stacked ? downTo(i) : tallest;
        const place = { x: x + slot.x, y: y + (press.dense ? 2.5 : 4) + bottom - title.height };
        const how = { place, align: shared && i === 1 ? ('end' as const) : slot.column.align };
        printPassage(press, title, into ? { ...how, into } : how);
      };
      titles.forEach((title, i) => {
        if (!row) aside(press, () => print(title, i), 'Pagination');
        else print(title, i, { tag: tag(press, row, 'TH', { scope: 'Column' }), type: 'TH' });
      });
    },
  });
}

function rowPiece(
  press: Press,
  table: Tag,
  slots: readonly Slot[],
  set: readonly SetCell[],
  headedBy: Piece,
): Piece {
  const pad = press.type.cell.size * 0.27 * (0.5 + 0.5 * press.air);
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
      rowRule(press, x, y + height);
    },
  });
}

function rowRule(press: Press, x: number, y: number): void {
  aside(press, () => {
    press.doc.lineWidth(0.4).strokeColor(inks.rule);
    press.doc
      .moveTo(x, y)
      .lineTo(x + press.sheet.right - press.sheet.left, y)
      .stroke();
  });
}

/** A cell's content, set for its column. */
export interface SetCell {
  readonly height: number;
  readonly print: (place: Place, into: Tag) => void;
}

function setCell(press: Press, cell: Cell, width: number, align: Column['align']): SetCell {
  if (cell.kind !== 'said') {
    const byHand =
      cell.kind === 'lines'
        ? linesToWriteOn(press, cell.labels, width)
        : cell.grid && !press.handout.largeType
          ? tickGrid(press, cell.grid, width)
          : tickCalendar(press, cell.days, width);
    return cell.figure ? above(byHand, setFigure(press, cell.figure, width)) : byHand;
  }
  const { cell: voice } = press.type;
  const passages = cell.said.map(({ runs }) => setPassage(runs, voice, width));
  const gap = voice.size * 0.22;
  const height = passages.reduce((sum, passage) => sum + passage.height + gap, -gap);
  return {
    height: Math.max(0, height),
    print: ({ x, y }, into) => {
      // Made even for an empty cell, or the columns of the row would shift for a listener.
      into();
      let top = y;
      for (const passage of passages) {
        const place = { x, y: top };
        printPassage(press, passage, { place, align, into: nodeFor(press, passages.length, into) });
        top += passage.height + gap;
      }
    },
  };
}

const above = (upper: SetCell, lower: SetCell): SetCell => ({
  height: upper.height + rowGap + lower.height,
  print: ({ x, y }, into) => {
    upper.print({ x, y }, into);
    lower.print({ x, y: y + upper.height + rowGap }, into);
  },
});

/** A cell of one passage is that passage; several are told apart as paragraphs. */
const nodeFor = (press: Press, passages: number, cell: Tag) =>
  passages === 1 ? { tag: cell, type: 'TD' } : { tag: tag(press, cell, 'P'), type: 'P' };

/** Makes a thing when it is first asked for, and gives the same one ever after. */
function once<A, T>(make: (given: A) => T): (given: A) => T {
  let made: T | undefined;
  return (given) => {
    made ??= make(given);
    return made;
  };
}
