import type { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import { minutesTo } from '../record/day-clock.js';
import { localTime } from '../record/moments.js';

/** The case's own clock: minutes that pass from the start of anesthesia, also through a clock change. */
export interface Timeline {
  readonly begin: Temporal.ZonedDateTime;
  /** Minutes from the start of anesthesia to its end. */
  readonly minutes: number;
  /** Local time of a `moment` as written in the record. */
  readonly local: (written: string) => Temporal.PlainDateTime;
  readonly minuteOf: (at: Temporal.PlainDateTime) => number;
}

/** The clock of a case: its anesthesia begins at minute 0. @param timeZone that of the clinic */
export function timelineOf(record: CaseText, timeZone: string): Timeline {
  const local = (written: string) => localTime(written, record.surgery.date);
  const begin = local(record.anesthesia.begin).toZonedDateTime(timeZone);
  const minuteOf = (at: Temporal.PlainDateTime) => minutesTo(begin, at);
  return { begin, minutes: minuteOf(local(record.anesthesia.end)), local, minuteOf };
}

/** `2026-03-10T16:30` */
export const minutePrecision = (at: Temporal.PlainDateTime): string =>
  at.toString({ smallestUnit: 'minute' });

/** A span of the record in whole days. */
export const daysOf = ({ value, unit }: { value: number; unit: 'days' | 'weeks' }): number =>
  Math.round(unit === 'weeks' ? value * 7 : value);
