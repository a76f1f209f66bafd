import { describe, expect, it } from 'vitest';
import type { Drawing } from '../../src/draw/drawing.js';
import { enlarged } from '../../src/draw/enlarged.js';
import { inks } from '../../src/draw/inks.js';
import { text } from '../../src/draw/lettering.js';

const DRAWING: Drawing = {
  width: 40,
  height: 10,
  marks: [
    text([10, 4], 'small', { size: 2, colour: inks.ink }),
    text([20, 4], 'large', { size: 4, colour: inks.ink }),
    { kind: 'circle', centre: [5, 5], radius: 1, stroke: { colour: inks.ink, width: 0.2 } },
    {
      kind: 'line',
      points: [
        [0, 0],
        [1, 2],
      ],
      stroke: { colour: inks.ink, width: 0.1, dash: [1, 2] },
    },
  ],
};

describe('a drawing in large type', () => {
  it('grows as a whole until its smallest letter is high enough', () => {
    const { width, height, marks } = enlarged(DRAWING, { letter: 6, widest: 178 });
    expect([width, height]).toEqual([120, 30]);
    expect(marks[0]).toMatchObject({ at: [30, 12], size: 6 });
    expect(marks[1]).toMatchObject({ at: [60, 12], size: 12 });
    expect(marks[2]).toMatchObject({ centre: [15, 15], radius: 3 });
    expect(marks[3]).toMatchObject({
      points: [
        [0, 0],
        [3, 6],
      ],
      stroke: { dash: [3, 6] },
    });
  });

  it('is never wider than the text', () => {
    expect(enlarged(DRAWING, { letter: 20, widest: 100 }).width).toBe(100);
  });

  it('stays as it is without letters, or with letters that are high enough', () => {
    const mute = { ...DRAWING, marks: DRAWING.marks.slice(2) };
    expect(enlarged(mute, { letter: 6, widest: 178 })).toBe(mute);
    expect(enlarged(DRAWING, { letter: 1, widest: 178 })).toBe(DRAWING);
  });
});
