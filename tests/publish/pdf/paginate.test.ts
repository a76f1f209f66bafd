import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { paginate } from '../../../src/publish/pdf/paginate.js';
import { type Piece, piece } from '../../../src/publish/pdf/press.js';

const room = { top: { first: 100, later: 80 }, bottom: 700 };
const print = () => undefined;

const anyPiece: fc.Arbitrary<Piece> = fc
  .record({
    height: fc.integer({ min: 1, max: 300 }),
    before: fc.integer({ min: 0, max: 30 }),
    keepsWithNext: fc.boolean(),
    startsPage: fc.integer({ min: 0, max: 9 }).map((n) => n === 0),
  })
  .map((part) => piece({ ...part, print }));

describe('dealing pieces to pages', () => {
  it('prints each piece once, in order, inside the page', () => {
    fc.assert(
      fc.property(fc.array(anyPiece, { maxLength: 40 }), (pieces) => {
        const pages = paginate(pieces, room);
        expect(pages.flat().map((placed) => placed.piece)).toEqual(pieces);
        for (const page of pages) {
          let free = 0;
          for (const { piece, y } of page) {
            expect(y).toBeGreaterThanOrEqual(free);
            free = y + piece.height;
            expect(free).toBeLessThanOrEqual(room.bottom);
          }
        }
      }),
      { seed: 11 },
    );
  });

  it('leaves no heading at the foot of a page', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 5, max: 90 }), { minLength: 2, maxLength: 60 }),
        (heights) => {
          const pieces = heights.map((height, i) =>
            piece({ height, print, keepsWithNext: i % 2 === 0 }),
          );
          const pages = paginate(pieces, room);
          for (const page of pages.slice(0, -1)) {
            expect(page.at(-1)?.piece.keepsWithNext).toBe(false);
          }
        },
      ),
      { seed: 12 },
    );
  });

  it('repeats the column titles where a table runs on', () => {
    const header = piece({ height: 20, print, keepsWithNext: true });
    const rows = Array.from({ length: 40 }, () => piece({ height: 30, print, headedBy: header }));
    const pages = paginate([header, ...rows], room);
    expect(pages.length).toBeGreaterThan(2);
    for (const page of pages) expect(page[0]?.piece).toBe(header);
    expect(pages.map((page) => page[0]?.again)).toEqual([false, ...pages.slice(1).map(() => true)]);
    const last = pages.map((page) => (page.at(-1)?.y ?? 0) + 30);
    for (const foot of last) expect(foot).toBeLessThanOrEqual(room.bottom);
  });

  it('refuses a piece that no page can hold', () => {
    expect(() => paginate([piece({ height: 900, print })], room)).toThrow('taller than the page');
  });
});
