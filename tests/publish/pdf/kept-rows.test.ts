import { describe, expect, it } from 'vitest';
import { rowsKeptWithNext } from '../../../src/publish/pdf/kept-rows.js';

const room = { page: 700, line: 12 };
const rows = (count: number, height: number) => Array.from({ length: count }, () => height);

describe('rows that a page does not part', () => {
  it('are all of a short table', () => {
    expect(rowsKeptWithNext(rows(4, 20), room)).toEqual([true, true, true, false]);
  });

  it('are three at either end of a long one', () => {
    const kept = rowsKeptWithNext(rows(40, 20), room);
    expect(kept.slice(0, 3)).toEqual([true, true, false]);
    expect(kept.slice(3, -3)).not.toContain(true);
    expect(kept.slice(-3)).toEqual([true, true, false]);
  });

  it('are none where they are tall, as medicines given for weeks are', () => {
    expect(rowsKeptWithNext(rows(14, 160), room)).not.toContain(true);
    expect(rowsKeptWithNext(rows(3, 160), room)).not.toContain(true);
  });

  it('are as many as are little together', () => {
    const heights = [...rows(10, 20), 20, 60, 60];
    expect(rowsKeptWithNext(heights, room).slice(-3)).toEqual([false, true, false]);
  });

  it('are none of no rows', () => expect(rowsKeptWithNext([], room)).toEqual([]));
});
