import { inks } from '../../draw/inks.js';
import type { Press } from './press.js';
import type { SetCell } from './table.js';
import { aside, type Tag, tag } from './tags.js';
import { printPassage, setPassage } from './text.js';

/** Between two columns of lines, and from a label to its line, in points. */
const columnGap = 14;
const labelGap = 4;

/** Lines to write on, each with its label before it, in as many columns as leave room for a day and an hour; read aloud as a list of the labels. */
export function linesToWriteOn(press: Press, labels: readonly string[], width: number): SetCell {
  const { tick } = press.type;
  const set = labels.map((text) => setPassage([{ text }], tick, Number.POSITIVE_INFINITY));
  const widest = Math.max(...set.map(({ lines }) => lines[0]?.width ?? 0));
  // Room for "Sat 10:30 pm" in handwriting: some nine letters of twice the height.
  const least = widest + labelGap + tick.size * 9;
  const most = Math.max(1, Math.floor((width + columnGap) / (least + columnGap)));
  const rows = Math.ceil(labels.length / most);
  const across = Math.ceil(labels.length / rows);
  const step = (width + columnGap) / across;
  const row = tick.size * 1.9;
  let list: Tag | null = null;
  return {
    height: row * rows,
    print: ({ x, y }, into) => {
      list ??= tag(press, into, 'L');
      for (const [i, label] of set.entries()) {
        const left = x + Math.floor(i / rows) * step;
        const foot = y + ((i % rows) + 1) * row - 3;
        const body = tag(press, tag(press, list, 'LI'), 'LBody');
        const place = { x: left, y: foot - label.height };
        printPassage(press, label, { place, into: { tag: tag(press, body, 'P'), type: 'P' } });
        aside(press, () => {
          press.doc.lineWidth(0.7).strokeColor(inks.ink);
          press.doc
            .moveTo(left + widest + labelGap, foot)
            .lineTo(left + step - columnGap, foot)
            .stroke();
        });
      }
    },
  };
}
