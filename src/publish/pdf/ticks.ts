import { inks } from '../../draw/inks.js';
import type { GridDay, TickDay, TickGrid } from '../../words/handout.js';
import type { Place, Press } from './press.js';
import type { SetCell } from './table.js';
import { aside, type Tag, tag, within } from './tags.js';
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

/** Between two hours of a grid, in points. */
const hourGap = 2.5;
/** Widest room beside a day of a grid, in points: a short course stays together. */
const widestGap = 18;

/**
 * Hours down the side, days along the top. To a listener it is the list of days that it stands for, each box named by its
 * day and hour; the hours at the side are for the eye.
 */
export function tickGrid(press: Press, { hours, weeks }: TickGrid, width: number): SetCell {
  const { tick } = press.type;
  const labels = hours.map((hour) => setPassage([{ text: hour }], tick, Number.POSITIVE_INFINITY));
  const side = Math.max(...labels.map(({ lines }) => lines[0]?.width ?? 0)) + gapOf(press);
  const set = weeks.map((week) => setWeek(press, week, { hours, labels, side, width }));
  let list: Tag | null = null;
  return {
    height: set.reduce((sum, { height }) => sum + height + rowGap, -rowGap),
    print: ({ x, y }, into) => {
      list ??= tag(press, into, 'L');
      let top = y;
      for (const week of set) {
        week.print({ x, y: top }, list);
        top += week.height + rowGap;
      }
    },
  };
}

interface Sides {
  readonly hours: readonly string[];
  readonly labels: readonly Passage[];
  /** Points that the hours take at the left, and all that there are. */
  readonly side: number;
  readonly width: number;
}

function setWeek(
  press: Press,
  week: readonly GridDay[],
  { hours, labels, side, width }: Sides,
): SetCell {
  const { tick } = press.type;
  const box = boxOf(press);
  const bold = (text: string) =>
    setPassage([{ text, strong: true }], tick, Number.POSITIVE_INFINITY);
  const inkOf = (passage: Passage) => passage.lines[0]?.width ?? 0;
  const room = width - side;
  const whole = (passages: readonly Passage[]) =>
    passages.reduce((sum, passage) => sum + inkOf(passage), 0);
  const onOneLine = week.map(({ weekday, date }) => [bold(`${weekday} ${date}`)]);
  const heads =
    whole(onOneLine.flat()) + between * week.length <= room
      ? onOneLine
      : week.map(({ weekday, date }) => [bold(weekday), bold(date)]);
  const widths = heads.map((lines) => Math.max(box, ...lines.map(inkOf)));
  const free = room - widths.reduce((sum, ink) => sum + ink, 0);
  const gap = Math.min(widestGap, free / week.length);
  const head = Math.max(
    ...heads.map((lines) => lines.reduce((sum, { height }) => sum + height, 0)),
  );
  const row = Math.max(box, tick.leading) + hourGap;
  return {
    height: head + 2 + row * hours.length - hourGap,
    print: ({ x, y }, list) => {
      const top = y + head + 2;
      aside(press, () => {
        labels.forEach((label, i) => {
          const place = { x, y: top + i * row + (row - hourGap - label.height) / 2 };
          printPassage(press, label, { place });
        });
      });
      let left = x + side;
      week.forEach((day, k) => {
        const entry = tag(press, list, 'LI');
        const into = part(press, entry, 'Lbl');
        let down = y;
        for (const line of heads[k] as readonly Passage[]) {
          printPassage(press, line, { place: { x: left, y: down }, into });
          down += line.height;
        }
        const body = tag(press, entry, 'LBody');
        day.due.forEach((due, i) => {
          const middle = top + i * row + (row - hourGap) / 2;
          if (due) {
            const named = `${day.day}, ${hours[i]}`;
            printBox(press, body, { x: left, y: middle - box / 2 }, named);
          } else printDash(press, { x: left + box * 0.3, y: middle }, box * 0.4);
        });
        left += (widths[k] as number) + gap;
      });
    },
  };
}

function printBox(press: Press, body: Tag, { x, y }: Place, alt: string): void {
  const box = boxOf(press);
  const bbox = [x, y, x + box + 1, y + box] as const;
  within(press, tag(press, body, 'Figure', { alt, bbox }), 'Figure', () => {
    press.doc.lineWidth(0.9).strokeColor(inks.ink);
    press.doc.roundedRect(x + 0.5, y, box, box, 1).stroke();
  });
}

/** No dose at this hour of this day. */
function printDash(press: Press, { x, y }: Place, width: number): void {
  aside(press, () => {
    press.doc.lineWidth(0.7).strokeColor(inks.soft);
    press.doc
      .moveTo(x, y)
      .lineTo(x + width, y)
      .stroke();
  });
}
