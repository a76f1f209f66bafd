import { expect, it } from 'vitest';
import { yearsOf } from '../../src/units/age.js';

it('a year is 52 weeks or 12 months, as ages are told', () => {
  expect(yearsOf({ count: 52, unit: 'weeks' })).toBe(1);
  expect(yearsOf({ count: 12, unit: 'months' })).toBe(1);
  expect(yearsOf({ count: 3, unit: 'years' })).toBe(3);
});
