import type { Temporal } from 'temporal-polyfill';

/** Minutes. Not a clinical number. */
const HALF_A_DAY = 12 * 60;

/**
 * Times of day in the order of a table to minutes since the start of anesthesia, over midnight where they pass it.
 * A clock that falls back by more than half a day has passed midnight; any other step back is a mistake, and is left
 * for the caller to see. The first line is set against the start of anesthesia, on either side of midnight.
 * @param begin local start of anesthesia
 */
export function dayClock(begin: Temporal.PlainDateTime): (time: Temporal.PlainTime) => number {
  let previous: number | null = null;
  return (time) => {
    let minute = begin.toPlainDate().toPlainDateTime(time).since(begin).total('minutes');
    while (minute < (previous ?? 0) - HALF_A_DAY) minute += 2 * HALF_A_DAY;
    if (previous === null && minute > HALF_A_DAY) minute -= 2 * HALF_A_DAY;
    previous = Math.max(previous ?? minute, minute);
    return minute;
  };
}
