import type { Temporal } from 'temporal-polyfill';

/** Minutes. Not a clinical number. */
const HALF_A_DAY = 12 * 60;

/**
 * Minutes that pass from a moment to what a clock of its time zone shows. Of a time that a clock change shows twice it is
 * the second where the first comes before the time before it. A time that the change skips is that of a clock
 * which nobody put forward (RFC 5545, 3.3.5).
 * @param after minutes at which the clock was read before
 */
export function minutesTo(
  begin: Temporal.ZonedDateTime,
  local: Temporal.PlainDateTime,
  after = Number.NEGATIVE_INFINITY,
): number {
  const minutes = (disambiguation: 'compatible' | 'later') =>
    local.toZonedDateTime(begin.timeZoneId, { disambiguation }).since(begin).total('minutes');
  const first = minutes('compatible');
  return first >= after ? first : minutes('later');
}

/** The same for a clock that was not read before: of a time that is shown twice the one nearer to the moment. */
function nearestTo(begin: Temporal.ZonedDateTime, local: Temporal.PlainDateTime): number {
  const first = minutesTo(begin, local);
  const second = minutesTo(begin, local, Number.POSITIVE_INFINITY);
  return Math.abs(second) < Math.abs(first) ? second : first;
}

/** What a clock shows, with its day where the table tells it, to minutes since the start of anesthesia. */
type DayClock = (time: Temporal.PlainTime, day: Temporal.PlainDate | null) => number;

/**
 * Times in the order of a table to minutes since the start of anesthesia. Times of day go over midnight where they pass
 * it: a clock that falls back by more than half a day has passed midnight; any other step back that no clock change
 * explains is a mistake, and is left for the caller to see. The first line is set against the start of anesthesia, on
 * either side of midnight, and of a time that is shown twice it is the nearer one. A clock that shows a time which a clock change skips was not put forward, and goes on so.
 */
export function dayClock(begin: Temporal.ZonedDateTime): DayClock {
  const start = begin.toPlainDateTime();
  let shown: number | null = null;
  let previous = Number.NEGATIVE_INFINITY;
  let behind = 0;
  return (time, day) => {
    let minute = (day ?? start.toPlainDate()).toPlainDateTime(time).since(start).total('minutes');
    if (day === null) {
      while (minute < (shown ?? 0) - HALF_A_DAY) minute += 2 * HALF_A_DAY;
      if (shown === null && minute > HALF_A_DAY) minute -= 2 * HALF_A_DAY;
      shown = Math.max(shown ?? minute, minute);
    }
    const local = start.add({ seconds: Math.round((minute + behind) * 60) });
    const real = local.toZonedDateTime(begin.timeZoneId).toPlainDateTime();
    behind += local.until(real).total('minutes');
    const elapsed = Number.isFinite(previous)
      ? minutesTo(begin, real, previous)
      : nearestTo(begin, real);
    previous = Math.max(previous, elapsed);
    return elapsed;
  };
}
