import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toCelsius, toKilogram, toMilligram } from '../../src/units/convert.js';

describe('mass', () => {
  it('takes one pound as 0.453 592 37 kg (NIST SP 811, appendix B.8, exact)', () => {
    expect(toKilogram(1, 'lb')).toBe(0.453_592_37);
    expect(toKilogram(40, 'lb')).toBeCloseTo(18.143_694_8, 10);
  });

  it('takes a gram as a thousandth of a kilogram', () => {
    expect(toKilogram(850, 'g')).toBe(0.85);
    expect(toKilogram(18.4, 'kg')).toBe(18.4);
  });

  it('takes 2.204 623 pounds to a kilogram, the reciprocal to seven digits', () => {
    expect(1 / toKilogram(1, 'lb')).toBeCloseTo(2.204_623, 6);
  });
});

describe('temperature, by t/°C = (t/°F − 32)/1.8 (NIST SP 811, appendix B.8, exact)', () => {
  it.each([
    [32, 0],
    [212, 100],
    [-40, -40],
    [98.6, 37],
    [101.5, 38.611_111],
  ])('reads %d °F as %d °C', (fahrenheit, celsius) => {
    expect(toCelsius(fahrenheit, 'F')).toBeCloseTo(celsius, 6);
  });

  it('leaves °C as it is', () => {
    expect(toCelsius(37.9, 'C')).toBe(37.9);
  });

  it('keeps order and can be undone', () => {
    fc.assert(
      fc.property(fc.double({ min: -100, max: 300, noNaN: true }), (fahrenheit) => {
        expect(toCelsius(fahrenheit, 'F') * 1.8 + 32).toBeCloseTo(fahrenheit, 9);
        expect(toCelsius(fahrenheit + 1, 'F')).toBeGreaterThan(toCelsius(fahrenheit, 'F'));
      }),
    );
  });
});

it('scales medicine masses by the SI prefixes', () => {
  expect(toMilligram(0.3, 'g')).toBe(300);
  expect(toMilligram(250, 'mcg')).toBe(0.25);
  expect(toMilligram(62.5, 'mg')).toBe(62.5);
});
