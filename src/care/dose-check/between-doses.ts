import type { Temporal } from 'temporal-polyfill';

/**
 * Hours within which two doses count as given on the same day. Common practice. A dose at hour 24 starts the next day of
 * its own medicine, but still comes too near to another one that clashes.
 */
export const SAME_DAY = 24;

/** The shortest time between any two doses of two ascending lists. */
export function leastHoursApart(
  some: readonly Temporal.ZonedDateTime[],
  others: readonly Temporal.ZonedDateTime[],
): number {
  let least = Number.POSITIVE_INFINITY;
  let i = 0;
  let j = 0;
  while (i < some.length && j < others.length) {
    const [a, b] = [some[i], others[j]] as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
    least = Math.min(least, hoursApart(a, b));
    if (a.epochMilliseconds < b.epochMilliseconds) i++;
    else j++;
  }
  return least;
}

/**
 * Time between two doses, by the clock or elapsed, whichever is longer: a clock change takes an hour from a night, and a
 * dose at the same time of the next day is still a day later.
 */
export function hoursApart(a: Temporal.ZonedDateTime, b: Temporal.ZonedDateTime): number {
  const [from, to] = a.epochMilliseconds <= b.epochMilliseconds ? [a, b] : [b, a];
  const elapsed = (to.epochMilliseconds - from.epochMilliseconds) / 3_600_000;
  if (from.timeZoneId !== to.timeZoneId) return elapsed;
  return elapsed + Math.max(0, to.offsetNanoseconds - from.offsetNanoseconds) / 3600e9;
}
