import { Temporal } from 'temporal-polyfill';
import { hoursApart, SAME_DAY } from './dose-check/between-doses.js';

/** When doses are due: at an exact interval, or at chosen times of day. */
export type Rhythm =
  | { readonly kind: 'every'; readonly hours: number }
  | { readonly kind: 'at'; readonly times: readonly string[] };

/** How a medicine is given at home: first dose, rhythm, number of doses. */
export interface DosePlan {
  readonly rhythm: Rhythm;
  /** How many doses are given at home. */
  readonly doses: number;
  /** The clinic's local time of the last dose given there; null when none was given. */
  readonly lastGiven: Temporal.PlainDateTime | null;
  /** The home's local time of the first home dose where the veterinarian set it; null to compute it. */
  readonly first: Temporal.PlainDateTime | null;
  /** IANA time zone of the home. */
  readonly timeZone: string;
  /** That of the clinic, where it is another. */
  readonly clinicZone?: string;
  /** Minutes: the step of the home's clock to which a computed first dose is rounded up; none keeps it to the minute. */
  readonly step?: number;
}

/**
 * Each home dose as an instant in the time zone of the home, ascending.
 * `every` counts elapsed hours, so a clock change shifts the clock time but never the interval; `at` keeps the clock
 * time. The first dose follows the last clinic dose by at least one interval; where doses have times of day, it is the
 * first such time that is not too early, and the same holds after a first dose that was set between those times. A local
 * time that a clock change skips is moved forward (RFC 5545, 3.3.5). A step moves the first of doses at an exact interval,
 * and so all of them, by less than itself and never back: no dose is nearer to the one before.
 */
export function homeDoses(plan: DosePlan): Temporal.ZonedDateTime[] {
  const first = firstDose(plan);
  if (plan.rhythm.kind === 'every') {
    const { hours } = plan.rhythm;
    return Array.from({ length: plan.doses }, (_, index) =>
      first.add({ minutes: Math.round(hours * 60 * index) }),
    );
  }
  const { times } = plan.rhythm;
  const listed = times.some((time) => Temporal.PlainTime.from(time).equals(first.toPlainTime()));
  const doses: Temporal.ZonedDateTime[] = [first];
  while (doses.length < plan.doses) {
    const last = doses.at(-1) as Temporal.ZonedDateTime;
    doses.push(
      doses.length === 1 && !listed
        ? notBefore(times, last.add(interval(plan.rhythm)))
        : nextListed(times, last),
    );
  }
  return doses;
}

/** A dose that comes at another time of the clock than those before it, because the clock was changed. */
export interface ClockChange {
  /** Index of the first dose after the change. */
  readonly dose: number;
  /** How much later it comes by the clock; less than zero for earlier. */
  readonly minutes: number;
}

/**
 * Where doses at an exact interval move on the clock. Doses at times of day never do.
 * @param before the last dose in the clinic, where the clinic keeps the clock of the home and the first dose here is counted from it
 */
export function clockChanges(
  rhythm: Rhythm,
  doses: readonly Temporal.ZonedDateTime[],
  before: Temporal.ZonedDateTime | null,
): ClockChange[] {
  if (rhythm.kind === 'at') return [];
  return doses.flatMap((dose, index) => {
    const last = doses[index - 1] ?? before;
    const minutes = last ? (dose.offsetNanoseconds - last.offsetNanoseconds) / 60e9 : 0;
    return minutes === 0 ? [] : [{ dose: index, minutes }];
  });
}

/**
 * The most doses that fall within any 24 hours: one at hour 24 belongs to the next day. Doses at an exact interval are
 * counted by elapsed hours; those at times of day by the clock too, where a clock change takes an hour from a night.
 * @param doses ascending
 */
export function mostInDay({ kind }: Rhythm, doses: readonly Temporal.ZonedDateTime[]): number {
  const apart = kind === 'every' ? elapsedHours : hoursApart;
  let most = 0;
  let first = 0;
  for (const [last, dose] of doses.entries()) {
    while (apart(doses[first] as Temporal.ZonedDateTime, dose) >= SAME_DAY) first++;
    most = Math.max(most, last - first + 1);
  }
  return most;
}

const elapsedHours = (from: Temporal.ZonedDateTime, to: Temporal.ZonedDateTime): number =>
  (to.epochMilliseconds - from.epochMilliseconds) / 3_600_000;

/**
 * The shortest time between two doses, in hours: the interval itself, or the shortest gap between the listed times.
 */
export function shortestInterval(rhythm: Rhythm): number {
  if (rhythm.kind === 'every') return rhythm.hours;
  const minutes = rhythm.times
    .map((time) => Temporal.PlainTime.from(time))
    .map((time) => time.hour * 60 + time.minute)
    .sort((a, b) => a - b);
  const gaps = minutes.map((minute, index) =>
    index === 0
      ? minute + 24 * 60 - (minutes.at(-1) as number)
      : minute - (minutes[index - 1] as number),
  );
  return Math.min(...gaps.map((gap) => (gap === 0 ? 24 * 60 : gap))) / 60;
}

function firstDose(plan: DosePlan): Temporal.ZonedDateTime {
  if (plan.first) return plan.first.toZonedDateTime(plan.timeZone);
  if (!plan.lastGiven)
    throw new Error('A dose plan needs the last clinic dose or the first home dose.');
  const earliest = plan.lastGiven
    .toZonedDateTime(plan.clinicZone ?? plan.timeZone)
    .withTimeZone(plan.timeZone)
    .add(interval(plan.rhythm));
  return plan.rhythm.kind === 'every'
    ? onStep(earliest, plan.step ?? 1)
    : notBefore(plan.rhythm.times, earliest);
}

/** The first instant from this one on whose minute is on a step of the clock. @param step minutes, a whole part of an hour */
export function onStep(from: Temporal.ZonedDateTime, step: number): Temporal.ZonedDateTime {
  let moment = from;
  // A second time where the clock is changed between the two by less than the step.
  while (moment.minute % step !== 0) {
    moment = moment.add({ minutes: step - (moment.minute % step) });
  }
  return moment;
}

const interval = (rhythm: Rhythm) => ({ minutes: Math.round(shortestInterval(rhythm) * 60) });

/** The first of the listed times of day at or after an instant. */
const notBefore = (times: readonly string[], earliest: Temporal.ZonedDateTime) =>
  nextListed(times, earliest.subtract({ nanoseconds: 1 }));

/** The first of the listed times of day that comes after an instant. */
function nextListed(
  times: readonly string[],
  after: Temporal.ZonedDateTime,
): Temporal.ZonedDateTime {
  const candidates = [0, 1, 2].flatMap((days) =>
    times.map((time) =>
      after
        .toPlainDate()
        .add({ days })
        .toPlainDateTime(Temporal.PlainTime.from(time))
        .toZonedDateTime(after.timeZoneId),
    ),
  );
  const later = candidates
    .filter((candidate) => Temporal.ZonedDateTime.compare(candidate, after) > 0)
    .sort(Temporal.ZonedDateTime.compare);
  return later[0] as Temporal.ZonedDateTime;
}
