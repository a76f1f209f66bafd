import { expect, it } from 'vitest';
import { changeAt } from '../../src/vitals/change.js';

const readings = (...pairs: [minute: number, value: number][]) =>
  pairs.map(([minute, value]) => ({ minute, value, line: minute }));

it('compares the medians of ten minutes on both sides; the reading of the minute itself comes before', () => {
  const all = readings([24, 99], [25, 80], [30, 76], [35, 74], [40, 60], [45, 50], [46, 10]);
  expect(changeAt(35, all)).toEqual({
    before: { median: 76, count: 3 },
    after: { median: 55, count: 2 },
    difference: -21,
  });
});

it('reaches over no other step, whose own minute belongs to what came before it', () => {
  const all = readings([30, 76], [35, 74], [40, 46], [45, 53], [50, 61]);
  expect(changeAt(42, all, [37, 42, 49])).toEqual({
    before: { median: 46, count: 1 },
    after: { median: 53, count: 1 },
    difference: 7,
  });
  expect(changeAt(42, all, [40, 45]).before).toBeNull();
  expect(changeAt(42, all, [40, 45]).after).toEqual({ median: 53, count: 1 });
});

it('compares nothing without a reading on a side', () => {
  const all = readings([30, 76], [35, 74], [40, 60]);
  expect(changeAt(40, all)).toMatchObject({ after: null, difference: null });
  expect(changeAt(29, all)).toMatchObject({ before: null, difference: null });
  expect(changeAt(30, [])).toEqual({ before: null, after: null, difference: null });
});
