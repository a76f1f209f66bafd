import type { Temporal } from 'temporal-polyfill';
import { dayClock } from '../day-clock.js';
import type { MinuteReader } from '../vitals-rows.js';
import { type ClockForm, readClock } from './clock-form.js';
import { COUNTED, type CountedName } from './counted-time.js';
import { halfDayClock } from './half-day-clock.js';
import type { TableForm } from './table-form.js';

/** A line further from the start of anesthesia is of another patient. Common practice. */
const FURTHEST_HOURS = 24;

/** The start of anesthesia, and by how many minutes the clock of the monitor is known to be ahead. */
export interface Start {
  /** In the time zone of the clinic. */
  readonly begin: Temporal.ZonedDateTime;
  readonly ahead: number;
}

/**
 * Reads the minutes since the start of anesthesia from the lines of a monitor's table, in their order.
 * @param timeAt index of the column of the time
 * @param dayAt index of the column of the day, where the form has one
 */
export function minuteReader(
  { name, day, time: { written } }: TableForm,
  { begin, ahead }: Start,
  timeAt: number,
  dayAt: number,
): MinuteReader {
  if (typeof written === 'string') return countReader(written, begin, timeAt);
  const sinceBegin = dayClock(begin);
  // The schema takes a day that is counted for no day.
  const dayForm = day ? (day.written as ClockForm) : null;
  const dateAt = dayForm ? dayAt : timeAt;
  const shown = begin.toPlainDateTime().add({ seconds: Math.round(ahead * 60) });
  const ofHalfADay = written.isHalf ? halfDayClock(shown) : null;
  return (cells) => {
    const clock = readClock(written, cells[timeAt] ?? '');
    const date = dayForm ? readClock(dayForm, cells[dayAt] ?? '') : clock;
    if (!clock?.time) return { at: timeAt, expected: `a time written like ${written.pattern}` };
    if (!date) return { at: dayAt, expected: `a day written like ${dayForm?.pattern}` };
    if (ofHalfADay) {
      const moment = ofHalfADay(clock.time, date.day);
      if (!moment) return { at: timeAt, ...notSettled(name, shown) };
      const minute = sinceBegin(moment.toPlainTime(), moment.toPlainDate());
      return withinReach(minute, begin, dateAt, moment.toPlainDate());
    }
    const minute =
      clock.offset === null || date.day === null
        ? sinceBegin(clock.time, date.day)
        : date.day
            .toZonedDateTime({ plainTime: clock.time, timeZone: clock.offset })
            .since(begin)
            .total('minutes');
    return withinReach(minute, begin, dateAt, date.day);
  };
}

/** What is said where neither the start of anesthesia nor the line before tells the half of the day. */
const notSettled = (form: string, start: Temporal.PlainDateTime) => ({
  expected: `a time near the start of anesthesia, ${start.toPlainTime().toString().slice(0, 5)} on ${start.toPlainDate()}, or near that of the line before, as the form "${form}" tells neither AM nor PM`,
  mend: `Export the table with hours of 24 or with AM and PM, and write HH, or h with a, in "written" of the form; or, if the clock of the monitor was off, write under "monitor" of the case how far: clock of vitals: 2 h ahead.`,
});

/** Minutes that a table counts, from the start of anesthesia or from 1970. */
function countReader(
  name: CountedName,
  begin: Temporal.ZonedDateTime,
  timeAt: number,
): MinuteReader {
  const { since, milliseconds } = COUNTED[name];
  const isUnix = since === '1970';
  const start = isUnix ? begin.epochMilliseconds : 0;
  const expected = `${name}, counted from ${since}${isUnix ? ' in UTC' : ''}`;
  return (cells) => {
    const count = milliseconds(cells[timeAt] ?? '');
    if (count === null) return { at: timeAt, expected };
    return withinReach((count - start) / 60_000, begin, timeAt, null);
  };
}

/** A time of this patient; otherwise what it was read as, which shows a day and month that were exchanged. */
function withinReach(
  minute: number,
  begin: Temporal.ZonedDateTime,
  at: number,
  day: Temporal.PlainDate | null,
): ReturnType<MinuteReader> {
  if (Math.abs(minute) <= FURTHEST_HOURS * 60) return minute;
  const expected = `a time within ${FURTHEST_HOURS} hours of the start of anesthesia on ${begin.toPlainDate()}`;
  return { at, expected, ...(day && { readAs: `${day}` }) };
}
