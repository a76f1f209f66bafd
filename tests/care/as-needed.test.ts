import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { type NeededPlan, roomInDay, soonestDoses } from '../../src/care/as-needed.js';

const ZONE = 'America/Chicago';
const plan = (more: Partial<NeededPlan> = {}): NeededPlan => ({
  from: Temporal.ZonedDateTime.from(`2026-03-09T18:00[${ZONE}]`),
  until: Temporal.PlainDate.from('2026-03-11'),
  apart: 8,
  inDay: 3,
  inAll: null,
  ...more,
});
const hours = (given: Partial<NeededPlan>) =>
  soonestDoses(plan(given)).map((dose) => dose.toString().slice(0, 16));

describe('the most doses of a medicine as needed', () => {
  it('are each the least hours after the one before, up to the end of the last day', () => {
    // 18 + 8 = 2, + 8 = 10, + 8 = 18; the next one after 18:00 of the 11th would be at 2:00 of the 12th.
    expect(hours({})).toEqual([
      '2026-03-09T18:00',
      ...['2026-03-10T02:00', '2026-03-10T10:00', '2026-03-10T18:00'],
      ...['2026-03-11T02:00', '2026-03-11T10:00', '2026-03-11T18:00'],
    ]);
  });

  it('are no more within any 24 hours than may be: the third waits for the first to be a day ago', () => {
    expect(hours({ inDay: 2 })).toEqual([
      ...['2026-03-09T18:00', '2026-03-10T02:00'],
      ...['2026-03-10T18:00', '2026-03-11T02:00', '2026-03-11T18:00'],
    ]);
  });

  it('are no more in all than may be', () => {
    expect(hours({ inAll: 2 })).toEqual(['2026-03-09T18:00', '2026-03-10T02:00']);
  });

  it('end with the last minute of the last day, and are none where it is over first', () => {
    const from = (at: string) => Temporal.ZonedDateTime.from(`${at}[${ZONE}]`);
    expect(hours({ from: from('2026-03-11T23:59') })).toEqual(['2026-03-11T23:59']);
    expect(hours({ from: from('2026-03-12T00:00') })).toEqual([]);
  });

  it('count hours that pass, also through the night in which the clocks are put forward', () => {
    const from = Temporal.ZonedDateTime.from(`2026-03-07T20:00[${ZONE}]`);
    const until = Temporal.PlainDate.from('2026-03-08');
    // 4 h to midnight, 2 h to 2:00, which is 3:00, and 2 h more.
    expect(hours({ from, until })).toEqual([
      '2026-03-07T20:00',
      ...['2026-03-08T05:00', '2026-03-08T13:00', '2026-03-08T21:00'],
    ]);
  });

  it('are at most a thousand, however far the last day', () => {
    expect(hours({ until: Temporal.PlainDate.from('2126-01-01') })).toHaveLength(1000);
  });

  it('hold every limit, whatever the limits, and no dose more has room', () => {
    fc.assert(
      fc.property(
        fc.record({
          apart: fc.integer({ min: 1, max: 50 }),
          inDay: fc.integer({ min: 1, max: 6 }),
          inAll: fc.option(fc.integer({ min: 1, max: 20 })),
          days: fc.integer({ min: 0, max: 6 }),
        }),
        ({ days, ...limits }) => {
          const given = plan({
            ...limits,
            until: Temporal.PlainDate.from('2026-03-09').add({ days }),
          });
          const at = soonestDoses(given).map(({ epochMilliseconds }) => epochMilliseconds / 3.6e6);
          for (const [i, dose] of at.entries()) {
            if (i > 0) expect(dose - (at[i - 1] as number)).toBeGreaterThanOrEqual(limits.apart);
            const inDay = at.filter((other) => other >= dose && other < dose + 24);
            expect(inDay.length).toBeLessThanOrEqual(limits.inDay);
          }
          const last = at.at(-1) as number;
          const next = Math.max(last + limits.apart, (at.at(-limits.inDay) ?? -Infinity) + 24);
          const end = given.until.add({ days: 1 }).toZonedDateTime(ZONE).epochMilliseconds / 3.6e6;
          expect(at.length === limits.inAll || next >= end).toBe(true);
        },
      ),
    );
  });
});

it('has room for three doses a day at 8 hours, for four at 7, for one at 24 and at more', () => {
  // One at hour 24 belongs to the next day; at 7 hours they are due at 0, 7, 14 and 21.
  expect([8, 7, 24, 36].map(roomInDay)).toEqual([3, 4, 1, 1]);
});
