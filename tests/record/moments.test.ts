import { describe, expect, it } from 'vitest';
import { clock, date, localTime, moment } from '../../src/record/moments.js';

const taken = (schema: { safeParse: (text: unknown) => { success: boolean } }, text: unknown) =>
  schema.safeParse(text).success;

describe('a date', () => {
  it.each(['2026-03-09', '2024-02-29', '2000-02-29'])('takes %s', (text) => {
    expect(taken(date('a day'), text)).toBe(true);
  });

  it.each([
    ...['2026-02-30', '2025-02-29', '1900-02-29', '2026-13-01', '2026-00-10', '2026-04-31'],
    ...['2026-3-9', '09.03.2026', '20260309', '2026-03-09T10:00', '2026-03-09 ', ''],
  ])('refuses "%s"', (text) => {
    expect(taken(date('a day'), text)).toBe(false);
  });

  it('tells a day that does not exist from a text that is no date', () => {
    expect(date('a day').safeParse('2026-02-30').error?.issues[0]?.message).toBe(
      'That day is not in the calendar; write one that is.',
    );
    expect(date('a day').safeParse('30 Feb').error?.issues[0]?.message).toBe(
      'Write year, month and day with dashes: YYYY-MM-DD.',
    );
  });
});

it.each(['00:00', '23:59', '09:40:30'])('takes the time of day %s', (text) => {
  expect(taken(clock('a time'), text)).toBe(true);
});

it.each(['24:00', '9:40', '09:60', '09:40 am', '23:59:60', '0940', 580])(
  'refuses the time of day %s',
  (text) => {
    expect(taken(clock('a time'), text)).toBe(false);
  },
);

it.each([
  ['9:40', '09:40'],
  ['9.40', '09:40'],
  ['9h40', '09:40'],
  ['4pm', '16:00'],
  ['12:15 am', '00:15'],
  ['12 p.m.', '12:00'],
])('says how "%s" is written', (text, meant) => {
  for (const schema of [clock('a time'), moment('a time')]) {
    expect(schema.safeParse(text).error?.issues[0]?.message).toBe(
      `Write "${meant}", on the 24-hour clock.`,
    );
  }
});

it.each(['940', '25:10', '13:00 pm', 'BID', '9'])('guesses no time in "%s"', (text) => {
  expect(clock('a time').safeParse(text).error?.issues[0]?.message).toBe(
    'Write hours and minutes on the 24-hour clock: HH:MM.',
  );
});

describe('a moment', () => {
  it.each([
    ['09:40', '2026-03-09T09:40:00'],
    ['2026-03-10 00:15', '2026-03-10T00:15:00'],
    ['2024-02-29 23:59:30', '2024-02-29T23:59:30'],
  ])('reads %s as %s', (text, expected) => {
    expect(localTime(moment('a time').parse(text), '2026-03-09').toString()).toBe(expected);
  });

  it.each([
    ...['2026-03-09 09:40 pm', '20260309 09:40', '2026-03-09T10:00 09:40', '2026-03-09  09:40'],
    ...['2026-03-09T09:40', '2026-03-09', ' 09:40', '09:40 ', '2026-02-30 09:40', 'noon'],
  ])('refuses "%s"', (text) => {
    expect(taken(moment('a time'), text)).toBe(false);
  });

  it('says that a day does not exist', () => {
    expect(moment('a time').safeParse('2026-02-30 09:40').error?.issues[0]?.message).toBe(
      'That day is not in the calendar; write one that is.',
    );
  });
});
