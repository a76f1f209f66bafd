import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ChannelReadings } from '../../src/vitals/channel.js';
import { readingsTable } from '../../src/vitals/table-rows.js';

type Pair = readonly [minute: number, value: number];

const channel = (patient: readonly Pair[], apart: readonly Pair[] = []): ChannelReadings => ({
  channel: 'heart rate',
  unit: '/min',
  patient: patient.map(([minute, value]) => ({ minute, value, line: 1 })),
  apart: apart.map(([minute, value]) => ({ minute, value, line: 1, why: 'off the patient' })),
});

/** A reading each so many minutes, its value the minute. */
const each = (step: number, to: number): Pair[] =>
  Array.from({ length: Math.floor(to / step) + 1 }, (_, index) => [index * step, index * step]);

describe('the rows of readings', () => {
  it('are those of the monitor where they fit two pages', () => {
    const { step, rows } = readingsTable([
      channel(each(5, 90)),
      channel([[5, 36.9]], [[90, 31.2]]),
    ]);
    expect(step).toBeNull();
    expect(rows).toHaveLength(19);
    expect(rows[1]).toMatchObject({ minute: 5, readings: [{ value: 5 }, { value: 36.9 }] });
    expect(rows[2]?.readings[1]).toBeNull();
    expect(rows.at(-1)?.readings[1]).toMatchObject({ value: 31.2, isPatients: false });
  });

  it.each([
    [1 / 60, 45, 1],
    [1 / 60, 80, 5],
    [1 / 12, 240, 5],
    [1, 300, 10],
  ])('each %d min over %d min are shown every %d min', (apart, long, step) => {
    const table = readingsTable([channel(each(apart, long))]);
    expect(table.step).toBe(step);
    expect(table.rows.length).toBeLessThanOrEqual(60);
    expect(table.rows[1]?.minute).toBe(step);
    expect(table.rows[1]?.readings[0]?.value).toBeCloseTo(step, 9);
  });

  it('show of a channel that is read seldom the reading nearest by, and none twice the step away', () => {
    const cuff: Pair[] = [
      [0.4, 90],
      [11.2, 84],
    ];
    const { step, rows } = readingsTable([channel(each(1 / 60, 100)), channel(cuff)]);
    expect(step).toBe(5);
    const shown = rows.flatMap(({ minute, readings }) =>
      readings[1] ? [[minute, readings[1].value]] : [],
    );
    expect(shown).toEqual([
      [0, 90],
      [10, 84],
    ]);
  });

  it('hold no value that the monitor did not show near that minute, and are never too many', () => {
    const minute = fc.integer({ min: -600, max: 30_000 }).map((tenth) => tenth / 10);
    const readings = fc.uniqueArray(fc.tuple(minute, fc.integer({ min: 20, max: 250 })), {
      maxLength: 300,
      selector: ([at]) => at,
    });
    fc.assert(
      fc.property(readings, readings, (one, other) => {
        const byTime = (a: Pair, b: Pair): number => a[0] - b[0];
        const given = [[...one].sort(byTime), [...other].sort(byTime)];
        const { step, rows } = readingsTable(given.map((pairs) => channel(pairs)));
        expect(rows.length).toBeLessThanOrEqual(61);
        for (const row of rows) {
          for (const [index, shown] of row.readings.entries()) {
            if (shown === null) continue;
            const near = given[index]!.filter(
              ([at]) => Math.abs(at - row.minute) <= (step ?? 0) / 2,
            );
            expect(near.map(([, value]) => value)).toContain(shown.value);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});
