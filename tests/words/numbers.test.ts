import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { aligned, amount, decimals, twoDigits } from '../../src/words/numbers.js';

describe('an amount', () => {
  it.each([
    [0.5, 'tablet', '½'],
    [0.25, 'tablet', '¼'],
    [1.5, 'tablet', '1 ½'],
    [2.75, 'tablet', '2 ¾'],
    [2, 'tablet', '2'],
    [1 / 3, 'tablet', '0.333'],
    [0.5, 'mL', '0.5'],
    [1.5, 'capsule', '1.5'],
    [10, 'mL', '10'],
  ])('of %d %s is written %s', (value, unit, written) => {
    expect(amount(value, unit)).toBe(written);
  });

  it('never begins with a naked point nor ends in a zero after it', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1000, noNaN: true }), (value) => {
        const written = amount(value, 'mL');
        expect(written).not.toMatch(/^\.|\.\d*0$/);
        expect(Math.abs(Number(written) - value)).toBeLessThanOrEqual(0.0005 + 1e-9);
      }),
    );
  });
});

it.each([
  [37, 1, '37.0'],
  [37.46, 1, '37.5'],
  [0.04, 3, '0.040'],
  [-0.125, 2, '−0.13'],
  [72, 0, '72'],
])('writes %d in a column of %d decimals as %s', (value, places, written) => {
  expect(aligned(value, places)).toBe(written);
});

it.each([
  [0.2, '0.2'],
  [4.4444, '4.4'],
  [0.012_34, '0.012'],
  [123.4, '120'],
  [0, '0'],
  [9.96, '10'],
])('writes %d with two digits as %s', (value, written) => {
  expect(twoDigits(value)).toBe(written);
});

it('keeps as many decimals as a number deserves', () => {
  expect(decimals(88.04, 1)).toBe('88');
  expect(decimals(88.06, 1)).toBe('88.1');
});
