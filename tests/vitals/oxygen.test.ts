import { expect, it } from 'vitest';
import { lowOxygen } from '../../src/vitals/oxygen.js';

const readings = (...values: number[]) =>
  values.map((value, index) => ({ minute: index * 5, value, line: index + 2 }));
const DEATH = { minute: 18, what: 'death', note: null };

it('low saturation that lasts until a death is told by the death', () => {
  expect(lowOxygen(readings(98, 89, 80, 60), [DEATH])).toMatchObject([
    { from: 5, to: 15, after: null, told: { by: 'death', minute: 18 } },
  ]);
});

it('low saturation that had ended before is not', () => {
  expect(lowOxygen(readings(98, 89, 80, 97), [DEATH])).toMatchObject([{ told: null }]);
});
