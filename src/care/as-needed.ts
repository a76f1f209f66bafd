import { Temporal } from 'temporal-polyfill';
import { MOST_DOSES } from '../record/medicine-schema.js';

/** When and how often a medicine may be given that is given only as needed. */
export interface NeededPlan {
  /** The first moment at which it may be given, in the time zone of the home. */
  readonly from: Temporal.ZonedDateTime;
  /** The last day on which it may be given there. */
  readonly until: Temporal.PlainDate;
  /** Hours from one dose to the next at the least. */
  readonly apart: number;
  /** The most doses within 24 hours. */
  readonly inDay: number;
  /** The most doses in all; null where nothing but the last day ends it. */
  readonly inAll: number | null;
}

/** The most doses within 24 hours that so many hours between two of them leave room for. @param apart hours */
export const roomInDay = (apart: number): number => Math.ceil(24 / apart);

/** The end of its last day, an instant in the time zone of the home. */
export const endOf = ({
  until,
  from,
}: Pick<NeededPlan, 'until' | 'from'>): Temporal.ZonedDateTime =>
  until.add({ days: 1 }).toZonedDateTime(from.timeZoneId);

/**
 * As many doses as may be given, each as early as it may be, as instants in the time zone of the home, ascending: each at
 * least the hours apart from the one before, and a day after the one that is so many doses before it as may fall within
 * 24 hours. Hours are elapsed ones. None where its last day is over first; at most as many as a record may hold.
 */
export function soonestDoses(plan: NeededPlan): Temporal.ZonedDateTime[] {
  const end = endOf(plan);
  const most = Math.min(plan.inAll ?? MOST_DOSES, MOST_DOSES);
  const doses: Temporal.ZonedDateTime[] = [];
  let next = plan.from;
  while (doses.length < most && Temporal.ZonedDateTime.compare(next, end) < 0) {
    doses.push(next);
    const apart = next.add({ minutes: Math.round(plan.apart * 60) });
    const dayBefore = doses.at(-plan.inDay)?.add({ hours: 24 });
    next =
      dayBefore &&
      doses.length >= plan.inDay &&
      Temporal.ZonedDateTime.compare(dayBefore, apart) > 0
        ? dayBefore
        : apart;
  }
  return doses;
}
