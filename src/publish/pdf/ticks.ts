import { inks } from '../../draw/inks.js';
import type { TickDay } from '../../words/handout.js';
import { mm } from './page.js';
import type { Place, Press } from './press.js';
import type { SetCell } from './table.js';
import { aside, type Tag, tag } from './tags.js';
import { type Passage, printPassage, setPassage } from './text.js';

interface SetDay {
  readonly name: Passage;
  readonly boxes: readonly Passage[];
}

const box = 3.7 * mm;
/** From a box to the words beside it, and from one day to the next at least, in points. */
const gap = 4;
const between = 8;

/** A calendar to tick: each day a column with its boxes below it, the words beside each box; as many days in a row as fit. */
export function tickCalendar(press: Press, all: readonly TickDay[], width: number): SetCell {
  const { tick } = press.type;
  const set = (text: string, room: number, strong?: true) =>
    setPassage(press, [{ text, ...(strong && { strong }) }], tick, room);
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
  const tops = tallestRows(days, across);
  return {
    height: (tops.at(-1) as number) - rowGap,
    print: ({ x, y }, into) => {
      const list = tag(press, into, 'L');
      days.forEach((day, i) => {
        const place = { x: x + (i % across) * step, y: y + (tops[Math.floor(i / across)] ?? 0) };
        printDay(press, tag(press, list, 'LI'), day, place);
      });
    },
  };
}

const rowGap = 6;

/** Where each row of days begins, and last where the one after them would. */
function tallestRows(days: readonly SetDay[], across: number): number[] {
  const tops = [0];
  for (let i = 0; i < days.length; i += across) {
    const tallest = Math.max(...days.slice(i, i + across).map(heightOf));
    tops.push((tops.at(-1) as number) + tallest + rowGap);
  }
  return tops;
}

const heightOf = ({ name, boxes }: SetDay) =>
  boxes.reduce((sum, label) => sum + Math.max(box, label.height) + 3, name.height + 2) - 3;

/** The day is told as the label of its boxes. */
function printDay(press: Press, entry: Tag, { name, boxes }: SetDay, { x, y }: Place): void {
  printPassage(press, name, { place: { x, y }, into: part(press, entry, 'Lbl') });
  const body = tag(press, entry, 'LBody');
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
