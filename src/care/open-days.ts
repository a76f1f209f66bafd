import { Temporal } from 'temporal-polyfill';
import { type Clinic, DAYS, type OpenHours, type Weekday } from '../record/clinic-schema.js';

/** What of a clinic tells when it is open. */
export type Opening = Pick<Clinic, 'hours' | 'closed on'>;

/** Whether the clinic is open at a moment of its own clock. */
export function isOpenAt(clinic: Opening, at: Temporal.PlainDateTime): boolean {
  const time = at.toPlainTime().toString({ smallestUnit: 'minute' });
  const spans = openingHours(clinic, at.toPlainDate())?.spans ?? [];
  return spans.some(([from, to]) => from <= time && time < to);
}

/** When the clinic is open on a date, local time; null when it is closed. */
export function openingHours(clinic: Opening, date: Temporal.PlainDate): OpenHours | null {
  if (clinic['closed on'].some((closed) => closed.date === date.toString())) return null;
  return clinic.hours[DAYS[date.dayOfWeek - 1] as Weekday];
}

/** The open days from one day after surgery to another, both included. */
export function openDays(clinic: Clinic, surgery: string, from: number, to: number): string[] {
  const day = Temporal.PlainDate.from(surgery);
  const days: string[] = [];
  for (let after = from; after <= to; after++) {
    const date = day.add({ days: after });
    if (openingHours(clinic, date)) days.push(date.toString());
  }
  return days;
}

/**
 * The open day nearest to a day after surgery, the later one where two are as near; null when the clinic stays closed for
 * `reach` days either way. A visit never falls before the day after surgery.
 */
export function nearestOpenDay(
  clinic: Clinic,
  surgery: string,
  after: number,
  reach = 7,
): string | null {
  const day = Temporal.PlainDate.from(surgery);
  for (let shift = 0; shift <= reach; shift++) {
    for (const days of shift === 0 ? [after] : [after + shift, after - shift]) {
      const date = day.add({ days });
      if (days >= 1 && openingHours(clinic, date)) return date.toString();
    }
  }
  return null;
}
