import { describe, expect, it } from 'vitest';
import { removalVisit } from '../../src/care/removal.js';
import { type Change, clinicWith } from '../record/sample.js';

const WINDOW = { from: 10, to: 14 };

/** Closed on each day from one to another of March and April 2026. */
const closed = (from: number, to: number) => {
  const days = Array.from({ length: to - from + 1 }, (_, index) =>
    new Date(Date.UTC(2026, 2, from + index)).toISOString().slice(0, 10),
  );
  const change: Change = [
    '  - { date: 2026-03-19, why: stocktaking }',
    days.map((date) => `  - { date: ${date}, why: works }`).join('\n'),
  ];
  return clinicWith(change);
};

describe('the visit to take stitches out', () => {
  it('is on the first open day of the window, with the others to choose from', () => {
    // Day 10 after Monday 2026-03-09 is the closed Thursday; days 12 and 13 are a weekend.
    expect(removalVisit(clinicWith(), '2026-03-09', WINDOW)).toEqual({
      from: '2026-03-19',
      to: '2026-03-23',
      proposed: '2026-03-20',
      set: false,
      others: ['2026-03-23'],
      next: null,
    });
  });

  it('is on the day that the veterinarian set, whatever the window', () => {
    const visit = removalVisit(clinicWith(), '2026-03-09', WINDOW, '2026-03-25');
    expect(visit).toMatchObject({ proposed: '2026-03-25', set: true, next: null });
    expect(visit.others).toEqual(['2026-03-20', '2026-03-23']);
  });

  it('comes after the window, never before it, where the clinic is closed throughout', () => {
    expect(removalVisit(closed(19, 23), '2026-03-09', WINDOW)).toMatchObject({
      proposed: null,
      others: [],
      next: '2026-03-24',
    });
  });

  it('is not found where the clinic stays closed for four more weeks', () => {
    expect(removalVisit(closed(19, 51), '2026-03-09', WINDOW)).toMatchObject({
      proposed: null,
      next: null,
    });
    // One day less, and Monday 2026-04-20 is open.
    expect(removalVisit(closed(19, 50), '2026-03-09', WINDOW).next).toBe('2026-04-20');
  });
});
