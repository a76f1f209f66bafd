/** A wall-clock time taken apart; no zone, no calendar arithmetic. */
export interface WallClock {
  readonly year: string;
  readonly month: string;
  readonly day: string;
  readonly hour: string;
  readonly minute: string;
  readonly second: string;
}

/** `2026-03-10T10:05:00` in parts. Throws RangeError on any other form. */
export function wallClock(text: string): WallClock {
  const found = /^(\d{4})-(\d\d)-(\d\d)T(\d\d):(\d\d):(\d\d)$/.exec(text);
  if (!found) throw new RangeError(`Not a time as YYYY-MM-DDTHH:MM:SS: ${text}`);
  const [, year = '', month = '', day = '', hour = '', minute = '', second = ''] = found;
  return { year, month, day, hour, minute, second };
}
