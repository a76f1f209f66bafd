import fc from 'fast-check';
import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import { nearestOpenDay, openDays, openingHours } from '../../src/care/open-days.js';
import { readClinic } from '../../src/record/read-case.js';
import { accepted, CLINIC, clinicWith, KEYS, problemsOf } from '../record/sample.js';

/** Open Monday to Friday, closed on Thursday 2026-03-19. */
const clinic = clinicWith();
const shut = clinicWith(
  ['  monday: 08:00-18:00', '  monday: closed'],
  ['  tuesday: 08:00-18:00', '  tuesday: closed'],
  ['  wednesday: 08:00-18:00', '  wednesday: closed'],
  ['  thursday: 08:00-18:00', '  thursday: closed'],
  ['  friday: 08:00-17:00', '  friday: closed'],
);

describe('opening hours', () => {
  it('follow the day of the week', () => {
    expect(openingHours(clinic, Temporal.PlainDate.from('2026-03-20'))?.to).toBe('17:00');
    expect(openingHours(clinic, Temporal.PlainDate.from('2026-03-21'))).toBeNull();
  });

  it('are none on a closed day, whatever the day of the week', () => {
    expect(openingHours(clinic, Temporal.PlainDate.from('2026-03-19'))).toBeNull();
  });
});

describe('open days', () => {
  it('leave out weekends and closed days of the removal window', () => {
    // Day 10 after Monday 2026-03-09 is the closed Thursday; days 12 and 13 are a weekend.
    expect(openDays(clinic, '2026-03-09', 10, 14)).toEqual(['2026-03-20', '2026-03-23']);
  });

  it('are none where the clinic is closed throughout', () => {
    expect(openDays(shut, '2026-03-09', 10, 14)).toEqual([]);
    expect(openDays(clinic, '2026-03-09', 12, 13)).toEqual([]);
  });

  it('go over the end of February in a leap year and in a common one', () => {
    expect(openDays(clinic, '2024-02-26', 2, 4)).toEqual([
      '2024-02-28',
      '2024-02-29',
      '2024-03-01',
    ]);
    expect(openDays(clinic, '2026-02-25', 2, 5)).toEqual(['2026-02-27', '2026-03-02']);
  });
});

describe('the nearest open day', () => {
  it.each([
    [3, '2026-03-12', 'the day itself'],
    [5, '2026-03-13', 'the Friday before a Saturday'],
    [6, '2026-03-16', 'the Monday after a Sunday'],
    [10, '2026-03-20', 'the later one where two are as near'],
  ])('to day %d is %s: %s', (after, expected) => {
    expect(nearestOpenDay(clinic, '2026-03-09', after)).toBe(expected);
  });

  it('is never the day of surgery or before', () => {
    // Friday 2026-03-13, day 1: Saturday; day 0, Friday, is as near as day 2, but is the day of surgery.
    expect(nearestOpenDay(clinic, '2026-03-13', 1)).toBe('2026-03-16');
  });

  it('is not given where the clinic stays closed', () => {
    expect(nearestOpenDay(shut, '2026-03-09', 3)).toBeNull();
  });

  it('is open, and no open day is nearer', () => {
    const day = fc.integer({ min: 0, max: 3000 });
    fc.assert(
      fc.property(day, fc.integer({ min: 1, max: 60 }), (start, after) => {
        const surgery = Temporal.PlainDate.from('2024-01-01').add({ days: start });
        const target = surgery.add({ days: after });
        const found = nearestOpenDay(clinic, surgery.toString(), after);
        expect(found).not.toBeNull();
        const on = Temporal.PlainDate.from(found as string);
        expect(openingHours(clinic, on)).not.toBeNull();
        const distance = Math.abs(target.until(on).days);
        for (let shift = 0; shift < distance; shift++) {
          for (const other of [target.add({ days: shift }), target.subtract({ days: shift })]) {
            const tooEarly = Temporal.PlainDate.compare(other, surgery) <= 0;
            expect(tooEarly || openingHours(clinic, other) === null).toBe(true);
          }
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('the hours of a day', () => {
  const monday = (written: string) =>
    readClinic(CLINIC.replace('monday: 08:00-18:00', `monday: ${written}`), 'clinic.yaml', KEYS);

  it.each([
    ['08:00-18:00', '08:00', '18:00'],
    ['08:00\u201318:00', '08:00', '18:00'],
    ['08:00 - 12:00, 14:00 - 19:30', '08:00', '19:30'],
  ])('are read as %s', (written, from, to) => {
    expect(accepted(monday(written)).value.hours.monday).toMatchObject({ from, to });
  });

  it.each(['18:00-08:00', '08:00', '08:00-12:00-18:00', '08:00-12:00, 11:00-18:00', '8-18'])(
    'are refused as %s',
    (written) => {
      expect(problemsOf(monday(written))).toMatchObject([{ field: 'hours.monday' }]);
    },
  );
});
