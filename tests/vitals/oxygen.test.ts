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

it('low saturation reaches over no stretch with the sensor off: 10 to 40 is twice one reading', () => {
  const all = readings(98, 98, 85, 97, 85).map((one) => ({ ...one, minute: 5 * one.minute }));
  const joined = [all[0]!, all[2]!, { ...all[4]!, afterOff: true as const }];
  expect(lowOxygen(joined, [DEATH])).toEqual([]);
  expect(lowOxygen([all[0]!, all[2]!, all[4]!], [])).toMatchObject([{ from: 50, to: 100 }]);
});

it('a death explains no low saturation that was lost sight of before', () => {
  const lost = [
    ...readings(98, 89, 80),
    { minute: 30, value: 97, line: 9, afterOff: true as const },
  ];
  expect(lowOxygen(lost, [DEATH])).toMatchObject([
    { from: 5, to: 10, unseen: 'after', told: null },
  ]);
});

it('low saturation that had ended before is not', () => {
  expect(lowOxygen(readings(98, 89, 80, 97), [DEATH])).toMatchObject([{ told: null }]);
});
