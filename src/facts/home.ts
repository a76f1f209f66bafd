import { Temporal } from 'temporal-polyfill';
import { homeDoses, type Rhythm, shortestInterval } from '../care/doses.js';
import { nearestOpenDay } from '../care/open-days.js';
import type { CaseText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { MedicineText } from '../record/medicine-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import type { HomeFacts, MedicineFacts } from './case-facts.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { minutePrecision, type Timeline } from './timeline.js';

/**
 * A gap of more than this many intervals between the last clinic dose and the first at home is for a veterinarian to set.
 * From memory, unverified: no published limit was found; it only decides when the tool asks.
 */
const LONGEST_FIRST_GAP = 1.5;

export function homeFacts(
  record: Located<CaseText>,
  clinic: Clinic,
  time: Timeline,
  weight: Fact<Kilogram>,
): Outcome<HomeFacts> {
  const { value, where } = record;
  const { home } = value;
  const day = Temporal.PlainDate.from(value.surgery.date);
  const until = (span: { value: number; unit: 'days' | 'weeks' }) =>
    day.add({ days: daysOf(span) }).toString();
  const medicines = home.medicines.map((_, index) =>
    medicineFacts(record, index, clinic, time, weight),
  );
  const problems = medicines.flatMap((medicine) => (medicine.ok ? [] : medicine.problems));
  if (problems.length > 0) return bad(...problems);
  return good({
    medicines: medicines.flatMap((medicine) => (medicine.ok ? [medicine.value] : [])),
    collarUntil: home.collar
      ? computed(until(home.collar), 'day of surgery plus the days', where('home', 'collar'))
      : notKnown('The record asks for no collar.'),
    restUntil: computed(until(home.rest), 'day of surgery plus the days', where('home', 'rest')),
    rechecks: home.rechecks.map((recheck, index) => {
      const after = daysOf(recheck.after);
      const on = nearestOpenDay(clinic, value.surgery.date, after);
      return {
        what: recheck.what,
        on: on
          ? computed(
              on,
              `open day nearest to day ${after} after surgery`,
              where('home', 'rechecks', index, 'after'),
              'clinic.yaml hours',
            )
          : notKnown(`The clinic is closed around day ${after}.`),
      };
    }),
    awaited: home.awaited.map((awaited, index) => ({
      result: awaited.result,
      expected: computed(
        until(awaited.after),
        'day of surgery plus the days',
        where('home', 'awaited', index, 'after'),
      ),
    })),
  });
}

function medicineFacts(
  { value, where, at }: Located<CaseText>,
  index: number,
  clinic: Clinic,
  time: Timeline,
  weight: Fact<Kilogram>,
): Outcome<MedicineFacts> {
  const medicine = value.home.medicines[index] as MedicineText;
  const field = (name: string) => where('home', 'medicines', index, name);
  const rhythm = rhythmOf(medicine);
  const lastGiven = medicine['last given'] ? time.local(medicine['last given']) : null;
  const doses = homeDoses({
    rhythm,
    doses: medicine.doses,
    lastGiven,
    first: medicine.first ? time.local(medicine.first) : null,
    timeZone: clinic['time zone'],
  });
  const needed = roundTo(medicine.give.value * medicine.doses, 4);
  const problems: Problem[] = [];
  const problem = (name: string, found: string, expected: string, mend: string) =>
    problems.push({ ...at('home', 'medicines', index, name), found, expected, mend });

  const first = doses[0] as Temporal.ZonedDateTime;
  if (lastGiven) {
    const gap = lastGiven.toZonedDateTime(clinic['time zone']).until(first).total('hours');
    const interval = shortestInterval(rhythm);
    if (gap > interval * LONGEST_FIRST_GAP && !medicine.first) {
      problem(
        'at',
        `a first home dose ${roundTo(gap, 1)} h after the last one in the clinic`,
        `at most ${LONGEST_FIRST_GAP} times the interval of ${roundTo(interval, 1)} h`,
        'Decide on the first home dose and write it, for example "first: 2026-03-11 08:00".',
      );
    }
    if (medicine.first && tooSoon(lastGiven, time.local(medicine.first), gap, interval)) {
      problem(
        'first',
        medicine.first,
        `at least ${roundTo(interval, 1)} h after the last dose in the clinic at ${medicine['last given']}`,
        'Write a later first dose, or mend the time of the last one.',
      );
    }
  }
  const discharge = time.local(value.surgery.discharge).toZonedDateTime(clinic['time zone']);
  if (Temporal.ZonedDateTime.compare(first, discharge) < 0) {
    problem(
      medicine.first ? 'first' : 'last given',
      `a first home dose at ${minutePrecision(first.toPlainDateTime()).replace('T', ' ')}`,
      `a time after the patient goes home at ${value.surgery.discharge}`,
      'Record the dose that is given in the clinic before discharge as "last given".',
    );
  }
  if (medicine.dispensed && medicine.dispensed.value < needed) {
    problem(
      'dispensed',
      medicine.dispensed.written,
      `at least ${needed} ${medicine.give.unit} for ${medicine.doses} doses of ${medicine.give.written}`,
      'Hand out more, or mend the number of doses.',
    );
  }
  if (problems.length > 0) return bad(...problems);

  const milligram =
    toMilligram(medicine.strength.value, medicine.strength.unit) * medicine.give.value;
  return good({
    drug: medicine.drug,
    purpose: medicine.for,
    strength: medicine.strength.written,
    give: medicine.give,
    route: medicine.route,
    food: medicine.food,
    rhythm,
    lastGiven: lastGiven
      ? recorded(minutePrecision(lastGiven), field('last given'))
      : notKnown('None was given in the clinic.'),
    doses: computed(
      doses.map((dose) => dose.toString({ smallestUnit: 'minute', timeZoneName: 'never' })),
      rhythm.kind === 'every'
        ? `every ${rhythm.hours} h of elapsed time from the last clinic dose`
        : 'the listed times of day, the first not sooner than one interval after the last clinic dose',
      field(medicine.first ? 'first' : 'last given'),
      field(rhythm.kind),
      field('doses'),
      'clinic.yaml time zone',
    ),
    milligram: computed(milligram, 'strength times amount', field('strength'), field('give')),
    perKilogram: computed(
      milligram / weight.value,
      'milligrams over kilograms of body weight',
      field('strength'),
      field('give'),
      ...weight.from,
    ),
    needed: computed(needed, 'amount times number of doses', field('give'), field('doses')),
    dispensed: medicine.dispensed
      ? recorded(medicine.dispensed, field('dispensed'))
      : notKnown('The record does not say how much was handed out.'),
  });
}

/** Sooner than one interval both by the clock and in elapsed hours; between the two lies the hour of a clock change. */
function tooSoon(
  last: Temporal.PlainDateTime,
  first: Temporal.PlainDateTime,
  elapsed: number,
  interval: number,
): boolean {
  return Math.max(elapsed, last.until(first).total('hours')) < interval;
}

function rhythmOf(medicine: MedicineText): Rhythm {
  return medicine.at
    ? { kind: 'at', times: [...medicine.at].sort() }
    : { kind: 'every', hours: (medicine.every as NonNullable<typeof medicine.every>).value };
}

function daysOf(span: { value: number; unit: 'days' | 'weeks' }): number {
  return Math.round(span.unit === 'weeks' ? span.value * 7 : span.value);
}
