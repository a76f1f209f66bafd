import qrcode from 'qrcode-generator';
import type { Drawing, Mark } from './drawing.js';
import { inks } from './inks.js';

/** Light border that a reader needs around the code, in modules (ISO/IEC 18004). */
const QUIET = 4;

/**
 * A text as a QR code in black on white, its border included. Up to 15 % of it can be read again where paper is worn
 * (level M).
 * @param module side of one module in mm
 */
export function qrCode(text: string, module: number): Drawing {
  const code = qrcode(0, 'M');
  code.addData(text, 'Byte');
  code.make();
  const count = code.getModuleCount();
  const side = (count + 2 * QUIET) * module;
  const marks: Mark[] = [area(0, 0, side, side, inks.paper)];
  for (let row = 0; row < count; row++) {
    const y = (row + QUIET) * module;
    for (let from = 0; from < count; ) {
      let to = from;
      while (to < count && code.isDark(row, to)) to++;
      // Neighbours are drawn as one bar, so that no seam shows between them.
      if (to > from) {
        marks.push(area((from + QUIET) * module, y, (to - from) * module, module, inks.ink));
      }
      from = to + 1;
    }
  }
  return { width: side, height: side, marks };
}

const area = (x: number, y: number, width: number, height: number, fill: string): Mark => ({
  kind: 'area',
  points: [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ],
  fill,
});
