import { expect, it } from 'vitest';
import { enlarged } from '../../src/draw/enlarged.js';
import { incision } from '../../src/draw/incision.js';

const small = incision({
  looks: 'bad',
  closure: 'stitches',
  drain: true,
  title: 'Call us',
  labels: { holder: 'A stitch is loose', edges: 'The edges gap', fluid: 'Pus or blood' },
});

it('is the same picture with every length doubled', () => {
  const large = enlarged(small, 2);
  expect([large.width, large.height]).toEqual([2 * small.width, 2 * small.height]);
  expect(large.marks).toHaveLength(small.marks.length);
  // Twice as large and half as large again is where it began, whatever kind of mark.
  expect(enlarged(large, 0.5)).toEqual(small);
});

it('leaves letters of 18 points where the drawing fills the text of a page', () => {
  const sizes = enlarged(small, 178 / small.width).marks.flatMap((mark) =>
    mark.kind === 'text' ? [mark.size] : [],
  );
  expect(Math.min(...sizes)).toBeGreaterThanOrEqual((18 * 25.4) / 72);
});
