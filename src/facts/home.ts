import { Temporal } from 'temporal-polyfill';
import { rowFor, whyNotChecked } from '../care/dose-check/formulary-row.js';
import { checkDoses } from '../care/dose-check/medicines-for-home.js';
import type { GivenDose } from '../care/dose-check/planned-medicine.js';
import { shortestInterval } from '../care/doses.js';
import { nearestOpenDay, openDays } from '../care/open-days.js';
import type { HomeText } from '../record/case-schema.js';
import type { Clinic } from '../record/clinic-schema.js';
import type { Formulary } from '../record/formulary-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { Quantity } from '../record/quantity.js';
import type { Species } from '../record/vocabulary.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import { asNeededFacts } from './as-needed.js';
import { asked, partOf, type Question } from './asked.js';
import type { FormularyCheck, HomeFacts, HomeMedicine, MedicineFacts } from './case-facts.js';
import { coursesOf } from './courses.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import type { Zones } from './first-dose.js';
import { lateFirst } from './late-first.js';
import { type HomePlan, medicineFacts } from './medicine.js';
import { shortSupplies } from './supplies.js';
import { daysOf, type Timeline } from './timeline.js';

interface HomeOutcome {
  readonly home: HomeFacts;
  readonly warnings: readonly Question[];
}

/** What happens at home: medicines checked against the clinic's formulary, days to keep and visits on open days. */
export function homeFacts(
  record: Located<HomeText>,
  clinic: Clinic,
  formulary: Formulary | null,
  time: Timeline,
  weight: Fact<Kilogram>,
): Outcome<HomeOutcome> {
  const { value, where } = record;
  const { home } = value;
  const { date } = value.surgery;
  const zones: Zones = {
    clinic: clinic['time zone'],
    home: home['at home in'] ?? clinic['time zone'],
  };
  const rules = clinic['home doses'];
  const step = rules['rounded up to'];
  const timed = home.medicines.map((_, index) =>
    medicineFacts(record, index, zones, time, weight, step),
  );
  const needed = home['as needed'].map((_, index) =>
    asNeededFacts(record, index, zones, time, weight, step),
  );
  const plans = [...timed, ...needed];
  // An amount that cannot be measured, or that runs out, can be an overdose as well: all is told at once.
  const { stops, warnings } = checkPlans(record, formulary, time, weight.value, zones, plans);
  const problems = [
    ...plans.flatMap(({ medicine }) => (medicine.ok ? [] : medicine.problems)),
    ...shortSupplies(record),
    ...stops,
  ];
  if (problems.length > 0) return bad(...problems);
  const courses = coursesOf(record, formulary, timed);
  const checked = <Facts extends HomeMedicine>(all: readonly HomePlan<Facts>[]) =>
    all
      .flatMap(({ medicine }) => (medicine.ok ? [medicine.value] : []))
      .map((facts) => ({
        ...facts,
        checked: checkedFact(formulary, facts.drug, value.patient.species),
      }));
  const medicines = checked(timed).map((facts, index) => ({ ...facts, ...courses[index] }));
  const day = Temporal.PlainDate.from(date);
  const until = (span: { value: number; unit: 'days' | 'weeks' }) =>
    day.add({ days: daysOf(span) }).toString();
  return good({
    warnings: [...lateFirst(record, zones, time, timed), ...warnings],
    home: {
      timeZone: recorded(
        zones.home,
        home['at home in'] ? where('home', 'at home in') : 'clinic.yaml time zone',
      ),
      medicines,
      asNeeded: checked(needed),
      ...(rules['late by more than'] && { lateBy: lateBy(rules['late by more than'], medicines) }),
      collarUntil: home.collar
        ? computed(until(home.collar), 'day of surgery plus the days', where('home', 'collar'))
        : notKnown('The record asks for no collar.'),
      restUntil: computed(until(home.rest), 'day of surgery plus the days', where('home', 'rest')),
      rechecks: home.rechecks.map(({ what, after }, index) => ({
        what,
        ...visit(clinic, date, daysOf(after), where('home', 'rechecks', index, 'after')),
      })),
      awaited: home.awaited.map(({ result, after }, index) => ({
        result,
        expected: resultDay(clinic, date, daysOf(after), where('home', 'awaited', index, 'after')),
      })),
    },
  });
}

/**
 * A dose that is later than this share of the way to the next one is too near to that: from memory, unverified. It only
 * decides whether the clinic's rule for late doses is told.
 */
const LATEST = 0.5;

/** The clinic's rule for late doses; not known where a dose follows too soon for it. */
function lateBy(
  limit: Quantity<'h' | 'min'>,
  medicines: readonly MedicineFacts[],
): Stated<Quantity<'h' | 'min'>> {
  const hours = limit.unit === 'h' ? limit.value : limit.value / 60;
  const soonest = Math.min(...medicines.map(({ rhythm }) => shortestInterval(rhythm)));
  return hours <= LATEST * soonest
    ? recorded(limit, 'clinic.yaml home doses')
    : notKnown(
        `The clinic allows ${limit.written}, and a dose here follows after ${roundTo(soonest, 1)} h.`,
      );
}

/** Days around a visit within which other open days are offered. Common practice. */
const NEAR = 2;

function visit(clinic: Clinic, surgery: string, after: number, place: string) {
  const on = nearestOpenDay(clinic, surgery, after);
  return {
    on: on
      ? computed(on, `open day nearest to day ${after} after surgery`, place, 'clinic.yaml hours')
      : notKnown(`The clinic is closed around day ${after}.`),
    others: openDays(clinic, surgery, Math.max(1, after - NEAR), after + NEAR).filter(
      (day) => day !== on,
    ),
  };
}

/** Days in which an open day is looked for after a result is due. Not a clinical number. */
const REACH_FOR_RESULT = 28;

/** A result can be told when the clinic is open: the first such day from the one on which it is due. */
function resultDay(clinic: Clinic, surgery: string, after: number, place: string): Fact<string> {
  const due = Temporal.PlainDate.from(surgery).add({ days: after }).toString();
  const [open = due] = openDays(clinic, surgery, after, after + REACH_FOR_RESULT);
  return open === due
    ? computed(due, 'day of surgery plus the days', place)
    : computed(open, `first open day from ${due} on`, place, 'clinic.yaml hours');
}

function checkPlans(
  { value, at }: Located<HomeText>,
  formulary: Formulary | null,
  time: Timeline,
  weight: Kilogram,
  zones: Zones,
  plans: readonly Pick<HomePlan, 'place' | 'planned' | 'rhythmField'>[],
): { readonly stops: readonly Problem[]; readonly warnings: readonly Question[] } {
  const given = value.anesthesia.drugs.map(
    ({ drug, dose, route, at: when }): GivenDose => ({
      drug,
      route,
      at: time.local(when).toZonedDateTime(zones.clinic),
      perKilogram: dose.unit === 'mL' ? null : toMilligram(dose.value, dose.unit) / weight,
    }),
  );
  const findings = checkDoses(
    formulary,
    value.patient.species,
    plans.map(({ planned }) => planned),
    given,
  ).map(({ medicine, weight, field, ...said }) => {
    const { place, rhythmField } = plans[medicine] as HomePlan;
    const problem = { ...at(...place, field === 'rhythm' ? rhythmField : field), ...said };
    return { place, weight, problem };
  });
  return {
    stops: findings.filter((one) => one.weight === 'stop').map(({ problem }) => problem),
    warnings: findings
      .filter((one) => one.weight === 'warn')
      .map(({ place, problem }) => ({
        ...problem,
        ...asked(problem.kind, partOf.medicine(value, place), problem.mend),
      })),
  };
}

function checkedFact(
  formulary: Formulary | null,
  drug: string,
  species: Species,
): Stated<FormularyCheck> {
  const row = rowFor(formulary, drug, species);
  if (row.kind === 'not checked') return notKnown(whyNotChecked(row));
  // A ban has stopped the case before.
  if (row.kind === 'never') return notKnown(row.why);
  const { dose, mostInDay, hours, notes, source } = row;
  return computed(
    { dose, mostInDay, hours, notes },
    'dose, day and interval against the row of the clinic’s own formulary',
    'formulary.yaml',
    source,
  );
}
