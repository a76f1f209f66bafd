import { describe, expect, it } from 'vitest';
import {
  type ClockForm,
  clockForm,
  readClock,
} from '../../../src/record/monitor-table/clock-form.js';

const read = (pattern: string, cell: string) => {
  const parts = readClock(clockForm(pattern) as ClockForm, cell);
  if (!parts) return null;
  const { day, time, offset } = parts;
  return [day?.toString() ?? null, time?.toString() ?? null, ...(offset === null ? [] : [offset])];
};

describe('the letters of Unicode Technical Standard 35, date field symbols', () => {
  it.each([
    ['yyyy-MM-dd HH:mm:ss', '2026-03-09 09:10:05', '2026-03-09', '09:10:05'],
    ['yyyy-MM-ddTHH:mm', '2026-03-09T09:10', '2026-03-09', '09:10:00'],
    ['dd.MM.yyyy HH:mm', '09.03.2026 09:10', '2026-03-09', '09:10:00'],
    ['d/M/yy H:mm', '9/3/26 9:10', '2026-03-09', '09:10:00'],
    ['M/d/yyyy h:mm a', '3/9/2026 9:10 PM', '2026-03-09', '21:10:00'],
    ['h:mm a', '12:05 a.m.', null, '00:05:00'],
    ['h:mm', '12:05', null, '00:05:00'],
    ['hh:mm', '01:05', null, '01:05:00'],
    ['h:mm a', '12:05 pm', null, '12:05:00'],
    ['h:mm a', '12:05 a. m.', null, '00:05:00'],
    ['h:mm a', '1:05\u00a0p.\u00a0m.', null, '13:05:00'],
    ['HH:mm:ss', '09:10:05.250', null, '09:10:05'],
    ['dd.MM.yyyy', '29.02.2024', '2024-02-29', null],
    ['d MMM yyyy', '9 Mar 2026', '2026-03-09', null],
    ['d-MMM-yy', '1-ene.-26', '2026-01-01', null],
    ['d. MMM yyyy', '3. März 2026', '2026-03-03', null],
    ['d MMM yyyy', '2 juillet 2026', '2026-07-02', null],
    ["d 'de' MMM 'de' yyyy, H'h'mm", '9 de marzo de 2026, 9h10', '2026-03-09', '09:10:00'],
    ['EEE, d MMM yyyy', 'Mon, 9 Mar 2026', '2026-03-09', null],
    ['d MMM yyyy', '2 juin 2026', '2026-06-02', null],
    ['d MMM yyyy', '31 dic 2026', '2026-12-31', null],
    ['yyyyMMddHHmmss', '20260309091005', '2026-03-09', '09:10:05'],
    ['yyyy-MM-ddTHH:mm:ssXXX', '2026-03-09T09:10:05Z', '2026-03-09', '09:10:05', '+00:00'],
    ['yyyy-MM-dd HH:mmXXX', '2026-03-09 09:10-0530', '2026-03-09', '09:10:00', '-05:30'],
  ])('reads %s from %s', (pattern, cell, ...parts) => {
    expect(read(pattern, cell)).toEqual(parts);
  });

  it.each([
    ['dd.MM.yyyy', '29.02.2026'],
    ['HH:mm', '24:00'],
    ['HH:mm', '9:10'],
    ['h:mm a', '13:00 pm'],
    ['h:mm a', '0:30 am'],
    ['MM/dd/yyyy', '13/01/2026'],
    ['d MMM yyyy', '9 Mon 2026'],
    ['HH:mm', '09:10 '.repeat(2)],
  ])('does not read %s from %s', (pattern, cell) => {
    expect(read(pattern, cell)).toBeNull();
  });

  it.each([
    ['QQ', '"QQ" stands for nothing'],
    ['EEE HH:mm', 'it holds neither a whole day nor a whole time'],
    ['HH:mm HH', '"HH" stands for a second hour'],
    ['HH:mmXXX', 'it holds neither a whole day nor a whole time'],
    ['MM/dd', 'it holds neither a whole day nor a whole time'],
    ['HH:mm a', 'beside AM or PM the hour is "h" or "hh"'],
    ['yyyy-MM-dd hh:mmXXX', 'a distance from UTC needs the hour "HH", or AM or PM'],
    ['', 'it holds neither a whole day nor a whole time'],
    ['HH:mm hh a', 'it holds the hour twice'],
  ])('refuses the pattern %j', (pattern, why) => {
    expect(clockForm(pattern)).toBe(why);
  });
});
