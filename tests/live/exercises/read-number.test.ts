import { expect, it } from 'vitest';
import { readNumber } from '../../../src/live/exercises/read-number.js';

it.each([
  ['46', 46],
  [' 46.5 ', 46.5],
  ['46,5', 46.5],
  ['0', 0],
])('reads %j', (written, value) => {
  expect(readNumber(written)).toBe(value);
});

it.each(['', 'about 46', '4 6', '1,234.5', '-3', '4.', '1e3', '46 mmHg'])(
  'does not guess at %j',
  (written) => {
    expect(readNumber(written)).toBeNull();
  },
);
