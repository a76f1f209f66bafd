import type { Temporal } from 'temporal-polyfill';
import type { PlannedMedicine } from './planned-medicine.js';

/**
 * Hours within which two doses count as given on the same day. Common practice. A dose at hour 24 starts the next day of
 * its own medicine, but still comes too near to another one that clashes.
 */
export const SAME_DAY = 24;

/** When a dose may be given: at one moment, or as needed at any of a stretch. */
interface Stretch {
  readonly from: Temporal.ZonedDateTime;
  readonly to: Temporal.ZonedDateTime;
}

/** Each dose at its hour; of a medicine as needed all the time from the first moment to the end of the last day. */
export const stretchesOf = ({ doses, asNeededUntil }: PlannedMedicine): readonly Stretch[] =>
  asNeededUntil === null
    ? doses.map((dose) => ({ from: dose, to: dose }))
    : [{ from: doses[0] as Temporal.ZonedDateTime, to: asNeededUntil }];

/** The shortest time that can lie between any dose of one medicine and any of another. */
export function leastHoursApart(one: PlannedMedicine, other: PlannedMedicine): number {
  const [some, others] = [stretchesOf(one), stretchesOf(other)];
  let least = Number.POSITIVE_INFINITY;
  let i = 0;
  let j = 0;
  while (i < some.length && j < others.length) {
    const [a, b] = [some[i], others[j]] as [Stretch, Stretch];
    least = Math.min(least, hoursBetween(a, b));
    if (a.to.epochMilliseconds < b.to.epochMilliseconds) i++;
    else j++;
  }
  return least;
}

/** None where they overlap. */
function hoursBetween(a: Stretch, b: Stretch): number {
  if (a.to.epochMilliseconds < b.from.epochMilliseconds) return hoursApart(a.to, b.from);
  if (b.to.epochMilliseconds < a.from.epochMilliseconds) return hoursApart(b.to, a.from);
  return 0;
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
