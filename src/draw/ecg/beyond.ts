import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { rectangle, text } from '../lettering.js';
import { textWidth } from '../text-width.js';
import { type Row, xOf, yOf } from './row.js';

/** Where the trace leaves the paper: an open arrowhead at the edge and the height it reaches. */
export function beyondPaper(row: Row): Mark[] {
  const { samples, samplingRate, decimalMark, unreadable } = row.strip;
  const marks: Mark[] = [];
  const last = Math.min(samples.length - 1, Math.floor(row.to * samplingRate));
  let extreme: { readonly at: number; readonly value: number } | null = null;
  for (let i = Math.max(0, Math.ceil(row.from * samplingRate)); i <= last + 1; i++) {
    const value = i > last ? Number.NaN : (samples[i] ?? Number.NaN);
    const hidden = unreadable.some((s) => i / samplingRate >= s.from && i / samplingRate <= s.to);
    if (!hidden && (value > row.high || value < row.low)) {
      if (!extreme || Math.abs(value) > Math.abs(extreme.value)) {
        extreme = { at: i / samplingRate, value };
      }
      continue;
    }
    if (!extreme) continue;
    const up = extreme.value > row.high;
    const x = xOf(row, extreme.at);
    const edge = up ? row.top : yOf(row, row.low);
    const inward = up ? 1 : -1;
    marks.push({
      kind: 'area',
      points: [
        [x, edge],
        [x - 1.1, edge + inward * 2],
        [x + 1.1, edge + inward * 2],
      ],
      fill: inks.paper,
      stroke: { colour: inks.ink, width: 0.28 },
    });
    const reach = `${extreme.value.toFixed(1).replace('-', '−').replace('.', decimalMark)} mV`;
    const at: Point = [x + 1.7, up ? edge + 2.4 : edge - 0.7];
    const plate = rectangle(x + 1.4, at[1] - 2.1, textWidth(reach, 2.5) + 0.6, 2.7);
    marks.push({ kind: 'area', points: plate, fill: inks.paper });
    marks.push(text(at, reach, { size: 2.5, colour: inks.ink }));
    extreme = null;
  }
  return marks;
}
