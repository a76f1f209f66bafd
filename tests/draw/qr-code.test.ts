import jsQR from 'jsqr';
import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../src/draw/drawing.js';
import { qrCode } from '../../src/draw/qr-code.js';

// The package's own default is the function; its types name the module.
const decode = jsQR as unknown as typeof jsQR.default;

/** The dark bars of a code as pixels, `scale` to a module. */
function pixels({ width, marks }: Drawing, module: number, scale: number) {
  const side = Math.round((width / module) * scale);
  const data = new Uint8ClampedArray(side * side * 4).fill(255);
  for (const mark of marks) {
    if (mark.kind !== 'area' || mark.fill !== '#000000') continue;
    const [[left, top], , [right, bottom]] = mark.points as [
      [number, number],
      unknown,
      [number, number],
    ];
    const at = (length: number) => Math.round((length / module) * scale);
    for (let y = at(top); y < at(bottom); y++) {
      for (let x = at(left); x < at(right); x++)
        data.fill(0, 4 * (y * side + x), 4 * (y * side + x) + 3);
    }
  }
  return { data, side };
}

describe('a QR code', () => {
  it.each([
    'https://calendars.larkspur.example/0123456789abcdef.ics',
    `https://${'a-long-name.'.repeat(5)}example/calendars/0123456789abcdef.ics`,
    'x',
  ])('says %s to a reader that has nothing to do with its writer', (text) => {
    const { data, side } = pixels(qrCode(text, 0.5), 0.5, 4);
    expect(decode(data, side, side)?.data).toBe(text);
  });

  it('has a light border of four modules on each side (ISO/IEC 18004)', () => {
    const { width, height, marks } = qrCode('https://calendars.larkspur.example/a.ics', 0.5);
    expect(width).toBe(height);
    const dark = marks.flatMap((mark) =>
      mark.kind === 'area' && mark.fill === '#000000' ? mark.points.flat() : [],
    );
    expect(Math.min(...dark)).toBeCloseTo(4 * 0.5);
    expect(Math.max(...dark)).toBeCloseTo(width - 4 * 0.5);
  });
});
