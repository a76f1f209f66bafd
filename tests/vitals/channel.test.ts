import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { VitalsTable } from '../../src/record/vitals-file.js';
import { apartSpans, readingsOf, spreadOf } from '../../src/vitals/channel.js';

const table = (...values: readonly (number | undefined)[]): VitalsTable => ({
  channels: ['temperature'],
  rows: values.map((value, index) => ({
    line: index + 2,
    minute: index * 5,
    values: value === undefined ? {} : { temperature: value },
  })),
});

const off = (from: number, to: number) => [
  { channel: 'temperature' as const, from, to, why: 'on the table' },
];

describe('readings', () => {
  it('are the patient’s where nothing speaks against it, with their lines', () => {
    const read = readingsOf(table(38, undefined, 37.9), 'temperature', 'C', []);
    expect(read.patient).toEqual([
      { minute: 0, value: 38, line: 2 },
      { minute: 10, value: 37.9, line: 4 },
    ]);
    expect(read.apart).toEqual([]);
  });

  it('are marked where the sensor was off since the one before, readings in between or none', () => {
    const off = (from: number, to: number) => [
      { channel: 'temperature' as const, from, to, why: 'probe out' },
    ];
    const marks = (from: number, to: number) =>
      readingsOf(table(38, 37, 36), 'temperature', 'C', off(from, to)).patient.map(
        ({ minute, afterOff }) => [minute, afterOff ?? false],
      );
    expect(marks(4, 6)).toEqual([
      [0, false],
      [10, true],
    ]);
    expect(marks(6, 8)).toEqual([
      [0, false],
      [5, false],
      [10, true],
    ]);
    expect(marks(11, 20).some(([, is]) => is)).toBe(false);
  });

  it('stand apart while the sensor is off, both ends included', () => {
    const read = readingsOf(table(21, 21, 21, 37.9, 37.8), 'temperature', 'C', off(5, 10));
    expect(read.apart.map(({ minute, why }) => [minute, why])).toEqual([
      [5, 'on the table'],
      [10, 'on the table'],
    ]);
    expect(read.patient.map(({ minute }) => minute)).toEqual([0, 15, 20]);
  });

  it('stand apart without end where the record gives none', () => {
    const open = off(Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY);
    expect(readingsOf(table(21, 21), 'temperature', 'C', open).patient).toEqual([]);
  });

  it('are not touched by the span of another channel', () => {
    const other = [{ channel: 'SpO2' as const, from: 0, to: 99, why: 'off the tongue' }];
    expect(readingsOf(table(38), 'temperature', 'C', other).apart).toEqual([]);
  });

  it('stand apart in stretches, parted by the patient’s own and by the reason', () => {
    const spans = [...off(0, 5), ...off(20, 30), { ...off(35, 35)[0], why: 'in the sink' }];
    const read = readingsOf(
      table(21, 21, 37, 37, 21, 21, 21, 18),
      'temperature',
      'C',
      spans as ReturnType<typeof off>,
    );
    expect(apartSpans(read)).toEqual([
      { from: 0, to: 5, why: 'on the table' },
      { from: 20, to: 30, why: 'on the table' },
      { from: 35, to: 35, why: 'in the sink' },
    ]);
  });

  it('are each either the patient’s or apart, none lost and none twice', () => {
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.integer({ min: 5, max: 45 }), { nil: undefined })),
        fc.integer({ min: -10, max: 100 }),
        fc.integer({ min: -10, max: 100 }),
        (values, from, to) => {
          const read = readingsOf(table(...values), 'temperature', 'C', off(from, to));
          const lines = [...read.patient, ...read.apart]
            .map(({ line }) => line)
            .sort((a, b) => a - b);
          expect(lines).toEqual(
            values.flatMap((value, index) => (value === undefined ? [] : [index + 2])),
          );
          for (const { minute } of read.patient) expect(minute < from || minute > to).toBe(true);
        },
      ),
    );
  });
});

describe('the spread', () => {
  const readings = (...values: readonly number[]) =>
    values.map((value, index) => ({ minute: index, value, line: index + 2 }));

  it('is nothing without readings', () => {
    expect(spreadOf([])).toBeNull();
  });

  it('has the middle reading as median, or the mean of the two in the middle', () => {
    expect(spreadOf(readings(3, 1, 2))?.median).toBe(2);
    expect(spreadOf(readings(4, 1, 3, 2))?.median).toBe(2.5);
  });

  it('names the first of several lowest and highest readings', () => {
    const spread = spreadOf(readings(5, 1, 9, 1, 9));
    expect([spread?.lowest.minute, spread?.highest.minute, spread?.count]).toEqual([1, 2, 5]);
  });

  it('lies between its ends, whatever the order', () => {
    const values = fc.array(fc.double({ min: 0, max: 400, noNaN: true }), { minLength: 1 });
    fc.assert(
      fc.property(values, (list) => {
        const spread = spreadOf(readings(...list));
        expect(spread?.lowest.value).toBe(Math.min(...list));
        expect(spread?.highest.value).toBe(Math.max(...list));
        const median = spread?.median ?? Number.NaN;
        expect(list.filter((value) => value <= median).length).toBeGreaterThanOrEqual(
          list.length / 2,
        );
        expect(list.filter((value) => value >= median).length).toBeGreaterThanOrEqual(
          list.length / 2,
        );
        expect(spreadOf(readings(...[...list].reverse()))?.median).toBe(median);
      }),
    );
  });
});
