import { Temporal } from 'temporal-polyfill';
import { isOpenAt, type Opening } from '../../care/open-days.js';
import type { Identity } from '../../facts/case-facts.js';
import { DAYS, type OpenHours } from '../../record/clinic-schema.js';
import type { Language } from '../language.js';

/** A Monday, to name the days of a week by. */
const A_MONDAY = Temporal.PlainDate.from('2026-01-05');

/** Days of the same hours in a row from which only the first and the last are named. Not a clinical number. */
const RUN = 3;

/** `Mon–Thu 8 am–6 pm; Fri 8 am–5 pm; Sat 9 am–noon`: days of the same hours together, closed ones left out. */
export function openingHours({ hours }: Opening, language: Language): string {
  const groups = new Map<string, number[]>();
  DAYS.forEach((day, index) => {
    const open = hours[day];
    if (!open) return;
    const said = spans(open, language);
    groups.set(said, [...(groups.get(said) ?? []), index]);
  });
  return [...groups].map(([said, days]) => `${named(days, language)}\u00a0${said}`).join('; ');
}

function spans({ spans: all }: OpenHours, { clock }: Language): string {
  const time = (at: string) =>
    // The end of a day is the midnight after it; full hours need no minutes where they are told by twelve.
    clock.time(`2026-01-05T${at === '24:00' ? '00:00' : at}`).replace(/:00(?=\s\D)/, '');
  return all.map(([from, to]) => `${time(from)}–${time(to)}`).join(', ');
}

/** Weekdays by their place in the week, ascending. */
function named(days: readonly number[], { clock }: Language): string {
  const name = (day: number) => clock.weekday(A_MONDAY.add({ days: day }).toString());
  const runs: number[][] = [];
  for (const day of days) {
    const run = runs.at(-1);
    if (run?.at(-1) === day - 1) run.push(day);
    else runs.push([day]);
  }
  return runs
    .flatMap((run) =>
      run.length < RUN
        ? run.map(name)
        : [`${name(run[0] as number)}–${name(run.at(-1) as number)}`],
    )
    .join(', ');
}

/** Who answers at an instant, `2026-03-10T20:00-05:00`: the clinic itself, or whom it names for its closed hours. */
export function whoAnswers(
  { phone, emergency, opening, timeZone }: Identity['clinic'],
  at: string,
): { readonly name: string | null; readonly phone: string } {
  const there = Temporal.Instant.from(at).toZonedDateTimeISO(timeZone).toPlainDateTime();
  return emergency === null || isOpenAt(opening, there) ? { name: null, phone } : emergency;
}
