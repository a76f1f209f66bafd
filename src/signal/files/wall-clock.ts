/** A date and time of day as a clock on the wall shows it, without a zone. */
export interface WallClock {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

const DAY_MS = 86_400_000;

/**
 * The clock `later` seconds on as `YYYY-MM-DDTHH:MM:SS[.fff]`, to the millisecond; null where the
 * calendar has no such date, the day no such time, or the year not four digits.
 */
export function wallClockText(clock: WallClock, later = 0): string | null {
  // UTC has no clock changes, so its arithmetic is that of a wall clock that nobody touches.
  const midnight = Date.UTC(clock.year, clock.month - 1, clock.day);
  const date = new Date(midnight);
  const sameDay =
    date.getUTCFullYear() === clock.year &&
    date.getUTCMonth() === clock.month - 1 &&
    date.getUTCDate() === clock.day;
  const timeMs = (clock.hour * 3600 + clock.minute * 60 + clock.second) * 1000;
  const timeFits = clock.hour < 24 && clock.minute < 60 && clock.second < 60 && timeMs >= 0;
  if (!sameDay || !timeFits || timeMs >= DAY_MS) return null;
  const moment = new Date(midnight + Math.round(timeMs + later * 1000));
  if (Number.isNaN(moment.getTime())) return null;
  const text = moment.toISOString().replace(/Z$/, '');
  return /^\d{4}-/.test(text) ? text.replace(/\.000$/, '') : null;
}
