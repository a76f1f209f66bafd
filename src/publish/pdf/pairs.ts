import { inks } from '../../draw/inks.js';
import type { Block } from '../../words/handout.js';
import { type Piece, type Place, type Press, piece } from './press.js';
import { aside, type Tag, tag } from './tags.js';
import { baseline, type Passage, printPassage, setPassage } from './text.js';

type Pairs = Extract<Block, { kind: 'pairs' }>;

interface SetPair {
  readonly label: Passage;
  readonly value: Passage;
}

interface Columns {
  readonly count: 1 | 2;
  /** Points: one column, and its part for the label. */
  readonly width: number;
  readonly label: number;
}

/** Between two columns, in points. */
const gutter = 22;

/** Label and value side by side, two pairs in a row where all values are short; a hairline between the rows. */
export function pairsPieces(press: Press, root: Tag, block: Pairs): Piece[] {
  const { sheet, type } = press;
  const whole = sheet.right - sheet.left;
  const half = (whole - gutter) / 2;
  const two = setPairs(press, block, { count: 2, width: half, label: half * 0.36 });
  const fit = two.pairs.every(({ label, value }) => label.lines.length + value.lines.length === 2);
  const { pairs, columns } =
    fit && block.rows.length > 3
      ? two
      : setPairs(press, block, { count: 1, width: whole, label: whole * 0.3 });
  const list = tag(press, root, 'L');
  const pad = type.body.size * 0.2;
  const rows = rowsOf(pairs, columns.count);
  return rows.map((row, i) => {
    const tallest = Math.max(...row.flatMap(({ label, value }) => [label.height, value.height]));
    const height = tallest + 2 * pad;
    return piece({
      before: i === 0 ? type.body.size * 0.5 : 0,
      height,
      keepsWithNext: i === 0 && rows.length > 1,
      print: ({ x, y }) => {
        row.forEach((pair, k) => {
          const left = x + k * (columns.width + gutter);
          if (i > 0) hairline(press, left, y, columns.width);
          printPair(press, tag(press, list, 'LI'), pair, { x: left, y: y + pad }, columns);
        });
      },
    });
  });
}

function setPairs(press: Press, block: Pairs, columns: Columns) {
  const { type } = press;
  const pairs = block.rows.map(
    ([label, value]): SetPair => ({
      label: setPassage([{ text: label }], type.label, columns.label - 8),
      value: setPassage(value.runs, type.body, columns.width - columns.label),
    }),
  );
  return { pairs, columns };
}

function rowsOf<T>(all: readonly T[], across: number): T[][] {
  return Array.from({ length: Math.ceil(all.length / across) }, (_, i) =>
    all.slice(i * across, (i + 1) * across),
  );
}

function hairline(press: Press, x: number, y: number, width: number): void {
  aside(press, () => {
    press.doc.lineWidth(0.4).strokeColor(inks.rule);
    press.doc
      .moveTo(x, y)
      .lineTo(x + width, y)
      .stroke();
  });
}

function printPair(
  press: Press,
  entry: Tag,
  { label, value }: SetPair,
  { x, y }: Place,
  columns: Columns,
): void {
  const nudge = baseline(press.type.body) - baseline(press.type.label);
  const labelled = { tag: tag(press, entry, 'Lbl'), type: 'Lbl' };
  printPassage(press, label, { place: { x, y: y + nudge }, into: labelled });
  const valued = { tag: tag(press, entry, 'LBody'), type: 'LBody' };
  printPassage(press, value, { place: { x: x + columns.label, y }, into: valued });
}
