import { inks } from '../../draw/inks.js';
import type { TickDay } from '../../words/handout.js';
import type { Place, Press } from './press.js';
import type { SetCell } from './table.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';

interface SetDay {
  readonly name: Passage;
  readonly boxes: readonly Passage[];
}

/** A box is a little taller than the words beside it. */
const boxOf = ({ type }: Press) => type.tick.size * 1.17;
/** From a box to the words beside it, in points. */
const gapOf = ({ type }: Press) => type.tick.size * 0.45;
/** From one day to the next at least, in points. */
const between = 8;

/** A calendar to tick, in one piece. */
export function tickCalendar(press: Press, all: readonly TickDay[], width: number): SetCell {
  const rows = tickRows(press, all, width);
  const tops = rows.map((_, i) =>
    rows.slice(0, i).reduce((sum, { height }) => sum + height + rowGap, 0),
  );
  return {
    height: rows.reduce((sum, { height }) => sum + height + rowGap, -rowGap),
    print: ({ x, y }, into) => {
      rows.forEach((row, i) => {
        row.print({ x, y: y + (tops[i] as number) }, into);
      });
    },
  };
}

/** The rows of a calendar to tick: each day a column with its boxes below it, the words beside each box; as many days in a row as fit. */
export function tickRows(press: Press, all: readonly TickDay[], width: number): SetCell[] {
  const { tick } = press.type;
  const box = boxOf(press);
  const gap = gapOf(press);
  const set = (text: string, room: number, strong?: true) =>
    setPassage([{ text, ...(strong && { strong }) }], tick, room);
  const inkOf = (text: string, strong?: true) =>
    set(text, Number.POSITIVE_INFINITY, strong).lines[0]?.width ?? 0;
  const widest = Math.max(
    ...all.flatMap(({ day, boxes }) => [
      inkOf(day, true),
      ...boxes.map((label) => box + gap + inkOf(label)),
    ]),
  );
  const most = Math.max(1, Math.floor((width + between) / (widest + between)));
  const step = (width + between) / most;
  const rows = Math.ceil(all.length / most);
  // Rows of even length: six and five rather than eight and three.
  const across = Math.ceil(all.length / rows);
  const days = all.map(
    ({ day, boxes }): SetDay => ({
      name: set(day, step - between, true),
      boxes: boxes.map((label) => set(label, step - between - box - gap)),
    }),
  );
  // Made by the row that is printed first, and joined by the others.
  let list: Tag | null = null;
  return Array.from({ length: rows }, (_, r) => {
    const row = days.slice(r * across, (r + 1) * across);
    return {
      height: Math.max(...row.map((day) => heightOf(day, box))),
      print: ({ x, y }, into) => {
        list ??= tag(press, into, 'L');
        for (const [i, day] of row.entries()) {
          printDay(press, tag(press, list, 'LI'), day, { x: x + i * step, y });
        }
      },
    };
  });
}

/** Between two rows of days, in points. */
export const rowGap = 6;

const heightOf = ({ name, boxes }: SetDay, box: number) =>
  boxes.reduce((sum, label) => sum + Math.max(box, label.height) + 3, name.height + 2) - 3;

/** The day is told as the label of its boxes. */
function printDay(press: Press, entry: Tag, { name, boxes }: SetDay, { x, y }: Place): void {
  printPassage(press, name, { place: { x, y }, into: part(press, entry, 'Lbl') });
  const body = tag(press, entry, 'LBody');
  const box = boxOf(press);
  const gap = gapOf(press);
  let top = y + name.height + 2;
  for (const label of boxes) {
    const tall = Math.max(box, label.height);
    aside(press, () => {
      press.doc.lineWidth(0.9).strokeColor(inks.ink);
      press.doc.roundedRect(x + 0.5, top + (tall - box) / 2, box, box, 1).stroke();
    });
    const place = { x: x + box + gap, y: top + (tall - label.height) / 2 };
    printPassage(press, label, { place, into: part(press, body, 'P') });
    top += tall + 3;
  }
}

const part = (press: Press, parent: Tag, type: string) => ({
  tag: tag(press, parent, type),
  type,
});
