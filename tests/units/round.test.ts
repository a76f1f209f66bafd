import fc from 'fast-check';
import { expect, it } from 'vitest';
import { roundTo } from '../../src/units/round.js';

const number = fc.double({ min: -1e12, max: 1e12, noNaN: true });
const places = fc.integer({ min: 0, max: 6 });

it('rounds half away from zero on the digits that a reader sees', () => {
  expect(roundTo(1.005, 2)).toBe(1.01);
  expect(roundTo(-1.005, 2)).toBe(-1.01);
  expect(roundTo(2.5, 0)).toBe(3);
  expect(roundTo(-2.5, 0)).toBe(-3);
  expect(roundTo(1234, -2)).toBe(1200);
  expect(roundTo(0.000_000_4, 6)).toBe(0);
});

it('never gives a negative zero, which would print as a sign before nothing', () => {
  expect(Object.is(roundTo(-0.001, 2), 0)).toBe(true);
  expect(Object.is(roundTo(-0, 2), 0)).toBe(true);
});

it('moves a number by at most half a step, and keeps what it has rounded', () => {
  fc.assert(
    fc.property(number, places, (value, decimals) => {
      const rounded = roundTo(value, decimals);
      expect(Math.abs(rounded - value)).toBeLessThanOrEqual(
        0.5 * 10 ** -decimals + Math.abs(value) * 1e-15,
      );
      expect(roundTo(rounded, decimals)).toBe(rounded);
    }),
  );
});

it('leaves no more decimals than were asked for', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), places, (value, decimals) => {
      const text = String(roundTo(value, decimals));
      const after = text.includes('e-')
        ? Number(text.split('e-')[1])
        : (text.split('.')[1] ?? '').length;
      expect(after).toBeLessThanOrEqual(decimals);
    }),
  );
});

it('rounds as its digits do, near a half and far from it', () => {
  // Whole thousandths, with a fourth decimal as an author would write it.
  const written = fc.tuple(
    fc.integer({ min: 0, max: 999_999_999 }),
    fc.integer({ min: 0, max: 9 }),
  );
  fc.assert(
    fc.property(written, ([thousandths, tenth]) => {
      const up = tenth >= 5 ? 1 : 0;
      expect(roundTo(Number(`${thousandths}${tenth}e-4`), 3)).toBe(
        Number(`${thousandths + up}e-3`),
      );
    }),
  );
});

it('mirrors at zero and keeps order', () => {
  fc.assert(
    fc.property(number, number, places, (a, b, decimals) => {
      expect(roundTo(-a, decimals)).toBe(-roundTo(a, decimals) || 0);
      const [low, high] = a <= b ? [a, b] : [b, a];
      expect(roundTo(low, decimals)).toBeLessThanOrEqual(roundTo(high, decimals));
    }),
  );
});

it('passes on what has no decimals to round', () => {
  expect(roundTo(Number.POSITIVE_INFINITY, 2)).toBe(Number.POSITIVE_INFINITY);
  expect(roundTo(Number.NaN, 2)).toBeNaN();
  expect(roundTo(1e308, 2)).toBe(1e308);
});
