import { expect, it } from 'vitest';
import { matchBeats } from './match-beats.js';

it('pairs beats within 150 ms and tells the rest', () => {
  const match = matchBeats([1, 2, 3, 4], [1.1, 2.2, 3.9, 5]);
  expect(match.pairs).toEqual([
    { reference: 1, found: 1.1 },
    { reference: 4, found: 3.9 },
  ]);
  expect(match.missed).toEqual([2, 3]);
  expect(match.extra).toEqual([2.2, 5]);
  expect(match.sensitivity).toBe(0.5);
  expect(match.predictivity).toBe(0.5);
});

it('gives each beat to one pair, the nearer one', () => {
  expect(matchBeats([1], [0.9, 1.02])).toMatchObject({
    pairs: [{ reference: 1, found: 1.02 }],
    extra: [0.9],
  });
  expect(matchBeats([0.9, 1.02], [1])).toMatchObject({
    pairs: [{ reference: 1.02, found: 1 }],
    missed: [0.9],
  });
});
