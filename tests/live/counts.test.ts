import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readCounts, writeCounts } from '../../src/live/counts.js';

it('gives back every whole number', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -1e9, max: 1e9 })), (counts) => {
      expect(readCounts(writeCounts(counts))).toEqual(counts);
    }),
  );
});

it('writes the steps as LEB128 does (DWARF 4, figure 22: 2, 127, 128, 129, 12857)', () => {
  const bytes = (unsigned: number) => {
    const step = unsigned % 2 === 1 ? -(unsigned + 1) / 2 : unsigned / 2;
    return [...writeCounts([step])].map((one) => (one.codePointAt(0) as number) - 0x2800);
  };
  expect(bytes(2)).toEqual([2]);
  expect(bytes(127)).toEqual([127]);
  expect(bytes(128)).toEqual([0 + 0x80, 1]);
  expect(bytes(129)).toEqual([1 + 0x80, 1]);
  expect(bytes(12857)).toEqual([57 + 0x80, 100]);
});

it('repeats the count before a missing one', () => {
  expect(readCounts(writeCounts([5, Number.NaN, Number.NaN, -2]))).toEqual([5, 5, 5, -2]);
});

it('uses no letter and no digit', () => {
  expect(writeCounts([1, -1, 300, -70_000])).toMatch(/^[\u2800-\u28ff]+$/);
});
