import { describe, expect, it } from 'vitest';
import { measureOf, SYRINGES } from '../../src/care/measure.js';
import { roundTo } from '../../src/units/round.js';

const syringe = (amount: number) => {
  const found = measureOf(amount, 'mL', true);
  return found.kind === 'syringe' ? found.syringe.capacity : found;
};

describe('a volume', () => {
  it.each([
    [0.01, 1],
    [0.07, 1],
    [1, 1],
    [1.1, 3],
    [1.4, 3],
    [2.9, 3],
    [3.2, 5],
    [4.6, 5],
    [5.2, 10],
    [9.8, 10],
    [13, 20],
    [60, 60],
  ])(
    'of %d mL is drawn up in the syringe of %d mL, the smallest with a line for it',
    (mL, size) => {
      expect(syringe(mL)).toBe(size);
    },
  );

  it.each([
    [0.005, [0.01]],
    [1.45, [1.4, 1.5]],
    [3.1, [3, 3.2]],
    [4.5, [4.4, 4.6]],
    [12.5, [12, 13]],
    [61, [60]],
  ])('of %d mL has no line; the nearest that have are %j', (mL, nearest) => {
    expect(syringe(mL)).toMatchObject({ kind: 'unmeasurable', nearest });
  });

  it('is on a line of some syringe exactly where whole steps make it up, for every 0.001 mL to 60 mL', () => {
    for (let thousandth = 1; thousandth <= 60_000; thousandth++) {
      // In whole thousandths, where nothing is rounded.
      const steps = SYRINGES.filter(
        ({ capacity, graduation }) =>
          thousandth <= capacity * 1000 && thousandth % Math.round(graduation * 1000) === 0,
      );
      const found = measureOf(thousandth / 1000, 'mL', true);
      const expected = steps[0];
      if (expected ? found.kind !== 'syringe' : found.kind !== 'unmeasurable') {
        expect.fail(`${thousandth / 1000} mL: ${JSON.stringify(found)}`);
      }
      if (expected && found.kind === 'syringe' && found.syringe !== expected) {
        expect.fail(`${thousandth / 1000} mL: ${JSON.stringify(found)}`);
      }
      if (found.kind !== 'unmeasurable') continue;
      for (const other of found.nearest) {
        if (measureOf(other, 'mL', true).kind !== 'syringe') expect.fail(`${other} mL has no line`);
      }
    }
  });
});

describe('tablets, capsules and drops', () => {
  it.each([
    [1, 'tablet', true, { kind: 'whole' }],
    [0.5, 'tablet', true, { kind: 'cut', into: 'halves' }],
    [1.5, 'tablet', true, { kind: 'cut', into: 'halves' }],
    [0.25, 'tablet', true, { kind: 'cut', into: 'quarters' }],
    [2.75, 'tablet', true, { kind: 'cut', into: 'quarters' }],
    [2, 'tablet', false, { kind: 'whole' }],
    [2, 'capsule', true, { kind: 'whole' }],
    [3, 'drop', true, { kind: 'whole' }],
  ] as const)('%d %s, to be cut: %s', (amount, form, mayCut, expected) => {
    expect(measureOf(amount, form, mayCut)).toEqual(expected);
  });

  it.each([
    [1 / 3, 'tablet', true, [0.25, 0.5]],
    [0.1, 'tablet', true, [0.25]],
    [1.5, 'tablet', false, [1, 2]],
    [0.5, 'capsule', true, [1]],
    [2.5, 'drop', true, [2, 3]],
  ] as const)('%d %s, to be cut: %s, cannot be given', (amount, form, mayCut, nearest) => {
    expect(measureOf(amount, form, mayCut)).toMatchObject({ kind: 'unmeasurable', nearest });
  });

  it('never gives part of a capsule, a drop or a tablet that must stay whole', () => {
    for (let hundredth = 1; hundredth <= 1000; hundredth++) {
      const amount = roundTo(hundredth / 100, 2);
      for (const form of ['capsule', 'drop', 'tablet'] as const) {
        expect(measureOf(amount, form, false).kind === 'whole').toBe(Number.isInteger(amount));
      }
    }
  });
});

describe('an ointment', () => {
  it.each([
    [0.5, 'cm'],
    [1, 'pea'],
    [2, 'pea'],
    [1, 'thin layer'],
  ] as const)('of %d %s is measured by eye', (amount, form) => {
    expect(measureOf(amount, form, false)).toEqual({ kind: 'smeared' });
  });

  it.each([
    [0.25, 'cm', [0.2, 0.3]],
    [1.5, 'pea', [1, 2]],
    [2, 'thin layer', [1]],
  ] as const)('of %d %s is refused', (amount, form, nearest) => {
    expect(measureOf(amount, form, false)).toMatchObject({ kind: 'unmeasurable', nearest });
  });
});
