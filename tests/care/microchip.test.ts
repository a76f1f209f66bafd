import { expect, it } from 'vitest';
import { misreadMicrochip } from '../../src/care/microchip.js';

it.each([
  ['99911200441720', 14],
  ['9991120044172031', 16],
  ['99911200441720B', 15],
  ['12345678', 8],
  ['none', 4],
])('%s is no microchip number', (number, characters) => {
  expect(misreadMicrochip(number)).toBe(characters);
});

it.each(['999112004417203', '999 112 004 417 203', '999-112-004417203', '012345678', '4A0B11C22D'])(
  '%s may be a microchip number',
  (number) => {
    expect(misreadMicrochip(number)).toBeNull();
  },
);
