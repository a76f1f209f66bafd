import type { Temporal } from 'temporal-polyfill';

/** One clock change, or the offset that holds without any: the parts of a STANDARD or DAYLIGHT block (RFC 5545, 3.6.5). */
export interface Observance {
  readonly kind: 'STANDARD' | 'DAYLIGHT';
  /** Local time at which it begins, on the clock as it went before, `2026-03-08T02:00:00`. */
  readonly begins: string;
  /** Offset from UTC before and after, `-06:00`. */
  readonly from: string;
  readonly to: string;
}

/** Where a zone has had the same offset all along, a begin that lies before every case. */
const LONG_AGO = '1970-01-01T00:00:00';

/**
 * The clock changes of a zone that matter from one instant to a later one: the last change before, and every one between
 * the two, as the zone's own data have them.
 */
export function observances(
  first: Temporal.ZonedDateTime,
  last: Temporal.ZonedDateTime,
): Observance[] {
  const before = first.add({ nanoseconds: 1 }).getTimeZoneTransition('previous');
  const found = before
    ? [observance(before)]
    : [{ kind: 'STANDARD' as const, begins: LONG_AGO, from: first.offset, to: first.offset }];
  for (
    let change = first.getTimeZoneTransition('next');
    change && change.epochNanoseconds <= last.epochNanoseconds;
    change = change.getTimeZoneTransition('next')
  ) {
    found.push(observance(change));
  }
  return found;
}

function observance(change: Temporal.ZonedDateTime): Observance {
  const before = change.subtract({ nanoseconds: 1 });
  const forward = change.offsetNanoseconds > before.offsetNanoseconds;
  return {
    // The zone's data do not say which of the two is summer time; calendars reckon with the offsets alone.
    kind: forward ? 'DAYLIGHT' : 'STANDARD',
    begins: before.toPlainDateTime().round('second').toString({ smallestUnit: 'second' }),
    from: before.offset,
    to: change.offset,
  };
}
