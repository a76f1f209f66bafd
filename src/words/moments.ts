import { Temporal } from 'temporal-polyfill';
import type { Hours } from '../record/clinic-schema.js';

/** Dates and times of day as one says them; the locale is the reader's, never the machine's. */
export interface Clockwork {
  /** Tuesday, March 24 */
  readonly day: (date: string) => string;
  /** Tuesday, March 24, 2026 */
  readonly fullDay: (date: string) => string;
  /** Tue, Mar 24 */
  readonly shortDay: (date: string) => string;
  /** Tue; only where a date stands below it, since the short form of a weekday may be that of a month too. */
  readonly weekday: (date: string) => string;
  /** Mar 24 */
  readonly monthDay: (date: string) => string;
  /** 10:45 am, or 10:45 of 24 hours; noon and midnight by name, since 12 o'clock is read both ways. */
  readonly time: (local: string) => string;
}

/** A day as it begins a line: what a language writes small within a sentence begins with a capital there. */
export const atStart = (day: string, language: string): string =>
  day.charAt(0).toLocaleUpperCase(language) + day.slice(1);

/** @param hours how the hours are told; by 24 of them noon needs no name, and midnight keeps its own */
export function clockwork(
  language: string,
  names: { readonly noon: string; readonly midnight: string },
  hours: Hours = '12 h',
): Clockwork {
  const locale = language === 'en' ? 'en-US' : `${language}-US`;
  const dates = (options: Intl.DateTimeFormatOptions) => {
    const format = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
    return (date: string) => unbroken(format.format(utc(`${date.slice(0, 10)}T12:00`)));
  };
  const times = new Intl.DateTimeFormat(locale, {
    hour: 'numeric',
    minute: '2-digit',
    hourCycle: hours === '24 h' ? 'h23' : 'h12',
    timeZone: 'UTC',
  });
  return {
    day: dates({ weekday: 'long', month: 'long', day: 'numeric' }),
    fullDay: dates({ weekday: 'long', month: 'long', day: 'numeric', year: 'numeric' }),
    shortDay: dates({ weekday: shortWeekday(locale), month: 'short', day: 'numeric' }),
    weekday: dates({ weekday: 'short' }),
    monthDay: dates({ month: 'short', day: 'numeric' }),
    time: (local) => {
      const clock = local.slice(11, 16);
      if (clock === '12:00' && hours === '12 h') return names.noon;
      if (clock === '00:00') return names.midnight;
      return unbroken(times.format(utc(local.slice(0, 16)))).toLowerCase();
    },
  };
}

/** A weekday is written out where its short form is that of a month too: "mar, 31 de mar" is no Tuesday to anybody. */
function shortWeekday(locale: string): 'short' | 'long' {
  const inShort = (options: Intl.DateTimeFormatOptions, days: readonly string[]) => {
    const { format } = new Intl.DateTimeFormat(locale, { ...options, timeZone: 'UTC' });
    return days.map((day) => format(utc(`${day}T12:00`)));
  };
  const months = inShort(
    { month: 'short' },
    Array.from({ length: 12 }, (_, i) => `2026-${String(i + 1).padStart(2, '0')}-01`),
  );
  const weekdays = inShort(
    { weekday: 'short' },
    Array.from({ length: 7 }, (_, i) => `2026-01-0${i + 1}`),
  );
  return weekdays.some((weekday) => months.includes(weekday)) ? 'long' : 'short';
}

/** A local time as the instant with the same digits in UTC, so that formatting in UTC shows those digits. */
function utc(local: string): number {
  return Temporal.PlainDateTime.from(local).toZonedDateTime('UTC').epochMilliseconds;
}

/**
 * With no-break spaces, except after the comma that follows a weekday: a line may end between Tuesday and March 24, but
 * not within March 24. ICU puts spaces of its own kinds into times; releases differ in which.
 */
function unbroken(text: string): string {
  const [head, ...rest] = text.replace(/\s/g, ' ').split(', ');
  return [head, rest.join(', ')]
    .filter((part) => part)
    .map((part) => part?.replaceAll(' ', '\u00a0'))
    .join(', ');
}
