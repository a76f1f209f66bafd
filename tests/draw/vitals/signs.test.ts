import { describe, expect, it } from 'vitest';
import { signed } from '../../../src/draw/vitals/signs.js';

const row = (apart: number, count: number) =>
  Array.from({ length: count }, (_, index) => ({ x: index * apart, isRead: true }));

describe('signs on a line of readings', () => {
  it('stand at each reading where they stand apart, and at none where nothing was read', () => {
    expect(signed(row(30, 5))).toEqual([true, true, true, true, true]);
    const gap = { x: 60, isRead: false };
    expect(signed([...row(30, 2), gap, { x: 90, isRead: true }])).toEqual([
      true,
      true,
      false,
      true,
    ]);
  });

  it('of each second stand so far apart that they are signs and no band', () => {
    const bears = signed(row(0.1, 4800));
    const at = bears.flatMap((one, index) => (one ? [index * 0.1] : []));
    expect(at).toHaveLength(20);
    expect(at[1]! - at[0]!).toBeCloseTo(24, 6);
  });

  it('stand at a reading that no line leads to, however many there are', () => {
    const readings = [
      ...row(0.1, 3000),
      { x: 300.1, isRead: false },
      { x: 300.2, isRead: true },
      { x: 300.3, isRead: false },
    ];
    expect(signed(readings).slice(-3)).toEqual([false, true, false]);
  });
});
