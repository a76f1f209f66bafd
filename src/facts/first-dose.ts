import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { GivenText } from '../record/medicine-schema.js';
import type { Problem } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import type { MedicinePlace } from './asked.js';
import { minutePrecision, type Timeline } from './timeline.js';

/** IANA time zones; the two differ where the patient goes home to another place. */
export interface Zones {
  readonly clinic: string;
  readonly home: string;
}

/** Refuses a last dose in the clinic that comes after the way home, when nothing that is counted from it holds. */
export function lastAfterDischarge(
  { value, at }: Located<HomeText>,
  place: MedicinePlace,
  { 'last given': last }: GivenText,
  zones: Zones,
  time: Timeline,
): Problem[] {
  const { discharge } = value.surgery;
  const [given, gone] = [last ?? discharge, discharge].map((moment) =>
    time.local(moment).toZonedDateTime(zones.clinic),
  ) as [Temporal.ZonedDateTime, Temporal.ZonedDateTime];
  if (last === undefined || Temporal.ZonedDateTime.compare(given, gone) <= 0) return [];
  return [
    {
      kind: 'a last dose after discharge',
      ...at(...place, 'last given'),
      found: last,
      expected: `a time before the patient goes home at ${discharge}`,
      mend: 'Mend one of the two; a dose that is given at home is not "last given".',
    },
  ];
}

/** How a medicine goes on at home. */
interface Start {
  readonly first: Temporal.ZonedDateTime;
  /** The last dose in the clinic; null where none was given. */
  readonly before: Temporal.ZonedDateTime | null;
  /** Hours from one dose to the next at the least. */
  readonly interval: number;
}

/**
 * What is wrong with a first dose at home: too soon after the last one in the clinic, where the record sets it, or before
 * the way home.
 */
export function firstDoseProblems(
  { value, at }: Located<HomeText>,
  place: MedicinePlace,
  medicine: GivenText,
  { first, before, interval }: Start,
  zones: Zones,
  time: Timeline,
): Problem[] {
  const home = value.surgery.discharge;
  const discharge = time.local(home).toZonedDateTime(zones.clinic);
  const problems: Problem[] = [];
  if (medicine.first && before && tooSoon(before, first, interval)) {
    problems.push({
      kind: 'a first home dose too soon',
      ...at(...place, 'first'),
      found: medicine.first,
      expected: `at least ${roundTo(interval, 1)} h after the last dose in the clinic at ${medicine['last given']}`,
      mend: 'Write a later first dose, or mend the time of the last one.',
    });
  }
  if (Temporal.ZonedDateTime.compare(first, discharge) < 0) {
    const there = zones.home === zones.clinic ? '' : ` in ${zones.home}`;
    problems.push({
      kind: 'a home dose before discharge',
      ...at(...place, medicine.first ? 'first' : 'last given'),
      found: `a first home dose at ${minutePrecision(first.toPlainDateTime()).replace('T', ' ')}${there}`,
      expected: `a time after the patient goes home at ${home}`,
      mend: 'Record the dose that is given in the clinic before discharge as "last given".',
    });
  }
  return problems;
}

/** Sooner than one interval both by the clock and in elapsed hours; between the two lies the hour of a clock change. */
function tooSoon(
  last: Temporal.ZonedDateTime,
  first: Temporal.ZonedDateTime,
  interval: number,
): boolean {
  const elapsed = last.until(first).total('hours');
  const sameClock = last.timeZoneId === first.timeZoneId;
  const byClock = sameClock
    ? last.toPlainDateTime().until(first.toPlainDateTime()).total('hours')
    : elapsed;
  return Math.max(elapsed, byClock) < interval;
}
