import type { Temporal } from 'temporal-polyfill';
import type { CaseText } from '../record/case-schema.js';
import { localTime } from '../record/moments.js';

/** The case's own clock: minutes since the start of anesthesia. */
export interface Timeline {
  readonly begin: Temporal.PlainDateTime;
  /** Local time of a `moment` as written in the record. */
  readonly local: (written: string) => Temporal.PlainDateTime;
  readonly minuteOf: (at: Temporal.PlainDateTime) => number;
}

export function timelineOf(record: CaseText): Timeline {
  const local = (written: string) => localTime(written, record.surgery.date);
  const begin = local(record.anesthesia.begin);
  return { begin, local, minuteOf: (at) => at.since(begin).total('minutes') };
}

/** `2026-03-10T16:30` */
export const minutePrecision = (at: Temporal.PlainDateTime): string =>
  at.toString({ smallestUnit: 'minute' });
