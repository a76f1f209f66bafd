import { Temporal } from 'temporal-polyfill';
import type { PlannedMedicine } from '../care/dose-check/planned-medicine.js';
import {
  clockChanges,
  homeDoses,
  mostInDay,
  type Rhythm,
  shortestInterval,
} from '../care/doses.js';
import { measureOf } from '../care/measure.js';
import type { HomeText } from '../record/case-schema.js';
import { DOSE_STEPS } from '../record/clinic-schema.js';
import { isSmeared, type MedicineText } from '../record/medicine-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import { writtenAmount } from '../record/quantity.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import type { MedicineFacts } from './case-facts.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import { amountAtOnce, DROPS_IN_ML, isDropped } from './one-amount.js';
import { minutePrecision, type Timeline } from './timeline.js';

/**
 * A gap of more than this many intervals between the last clinic dose and the first at home is for a veterinarian to set.
 * From memory, unverified: no published limit was found; it only decides when the tool asks.
 */
export const LONGEST_FIRST_GAP = 1.5;

/** Where the rule stands that rounds first doses. */
const ROUNDING_FROM = 'clinic.yaml home doses';

type Rounding = keyof typeof DOSE_STEPS;

/** IANA time zones; the two differ where the patient goes home to another place. */
export interface Zones {
  readonly clinic: string;
  readonly home: string;
}

/** A medicine with the plan that is checked against the formulary, whatever else is wrong with it. */
export interface HomePlan {
  readonly planned: PlannedMedicine;
  readonly rhythm: Rhythm;
  readonly medicine: Outcome<Omit<MedicineFacts, 'checked'>>;
}

/** All doses of one medicine, what they come to, and how they are measured. */
export function medicineFacts(
  record: Located<HomeText>,
  index: number,
  zones: Zones,
  time: Timeline,
  weight: Fact<Kilogram>,
  rounding: Rounding | undefined,
): HomePlan {
  const { value, where } = record;
  const medicine = value.home.medicines[index] as MedicineText;
  const field = (name: string) => where('home', 'medicines', index, name);
  const rhythm = rhythmOf(medicine);
  const lastGiven = medicine['last given'] ? time.local(medicine['last given']) : null;
  const plan = {
    rhythm,
    doses: medicine.doses,
    lastGiven,
    first: medicine.first ? time.local(medicine.first) : null,
    timeZone: zones.home,
    clinicZone: zones.clinic,
  };
  const [exact] = homeDoses({ ...plan, doses: 1 }) as [Temporal.ZonedDateTime];
  const doses = homeDoses(rounding ? { ...plan, step: DOSE_STEPS[rounding] } : plan);
  const rounded = !(doses[0] as Temporal.ZonedDateTime).equals(exact);
  const before = lastGiven?.toZonedDateTime(zones.clinic) ?? null;
  const { unit } = medicine.give;
  const give = amountAtOnce(medicine);
  const smeared = isSmeared(unit);
  const needed = smeared ? null : roundTo(give * medicine.doses, 4);
  const measure = measureOf(medicine.give.value, unit, medicine['do not cut'] === 'no');
  const problems = [
    ...timing(record, index, zones, time, before, {
      exact,
      printed: doses[0] as Temporal.ZonedDateTime,
    }),
    ...amountProblems(record, index, measure),
  ];
  const milligram = smeared
    ? null
    : toMilligram(medicine.strength.value, medicine.strength.unit) *
      (isDropped(medicine) ? give / DROPS_IN_ML : give);
  const perKilogram = milligram === null ? null : milligram / weight.value;
  const inDay = mostInDay(rhythm, doses);
  const amountFrom = [field('strength'), field('give')];
  const zoneFrom = value.home['at home in'] ? where('home', 'at home in') : 'clinic.yaml time zone';
  const planned: PlannedMedicine = {
    drug: medicine.drug,
    purpose: medicine.for,
    route: medicine.route,
    food: medicine.food,
    give: medicine.give,
    perKilogram,
    perKilogramDay: perKilogram === null ? null : perKilogram * inDay,
    hours: shortestInterval(rhythm),
    lastGiven: before,
    doses,
  };
  if (problems.length > 0 || measure.kind === 'unmeasurable') {
    return { planned, rhythm, medicine: bad(...problems) };
  }
  return {
    planned,
    rhythm,
    medicine: good({
      drug: medicine.drug,
      purpose: medicine.for,
      strength: medicine.strength.written,
      give: medicine.give,
      route: medicine.route,
      food: medicine.food,
      rhythm,
      measure: computed(measure, 'what can be counted, cut or drawn up', field('give')),
      lastGiven: lastGiven
        ? recorded(minutePrecision(lastGiven), field('last given'))
        : notKnown('None was given in the clinic.'),
      doses: computed(
        doses.map(written),
        howCounted(rhythm, medicine, rounded ? rounding : undefined),
        field(medicine.first ? 'first' : 'last given'),
        field(rhythm.kind),
        field('doses'),
        zoneFrom,
        ...(rounded ? [ROUNDING_FROM] : []),
      ),
      ...(rounded && {
        exactFirst: computed(
          written(exact),
          'one interval of elapsed time after the last clinic dose',
          field('last given'),
          field(rhythm.kind),
          zoneFrom,
        ),
      }),
      clockChanges: computed(
        // A first dose that the record sets goes by the clock of its own day, whatever came before.
        clockChanges(rhythm, doses, medicine.first || zones.home !== zones.clinic ? null : before),
        'the offset of each dose from UTC less that of the dose before',
        field(rhythm.kind),
        zoneFrom,
      ),
      milligram: unlessSmeared(
        milligram,
        isDropped(medicine)
          ? `strength times amount, ${DROPS_IN_ML} drops to the mL (common practice)`
          : 'strength times amount',
        ...amountFrom,
      ),
      perKilogram: unlessSmeared(
        perKilogram,
        'milligrams over kilograms of body weight',
        ...amountFrom,
        ...weight.from,
      ),
      perKilogramDay: unlessSmeared(
        planned.perKilogramDay,
        `mg/kg times the ${inDay} ${inDay === 1 ? 'dose' : 'doses'} that can fall within 24 h`,
        ...amountFrom,
        ...weight.from,
        field(rhythm.kind),
        field(medicine.first ? 'first' : 'last given'),
      ),
      needed: unlessSmeared(needed, 'amount times number of doses', field('give'), field('doses')),
      dispensed: medicine.dispensed
        ? recorded(medicine.dispensed, field('dispensed'))
        : notKnown('The record does not say how much was handed out.'),
    }),
  };
}

/** How the hours of doses came about, by what was done. @param rounding of the first dose; none where it was not rounded */
function howCounted(
  rhythm: Rhythm,
  { first }: MedicineText,
  rounding: Rounding | undefined,
): string {
  if (rhythm.kind === 'every') {
    const from = first ? 'the first dose, which the record sets' : 'the last clinic dose';
    const rounded = rounding ? `, the first rounded up to the next ${rounding} of the clock` : '';
    return `every ${rhythm.hours} h of elapsed time from ${from}${rounded}`;
  }
  return first
    ? 'the first dose, which the record sets, then the listed times of day, not sooner than the shortest time between them'
    : 'the listed times of day, the first not sooner than one interval after the last clinic dose';
}

/** What is computed from a mass; an ointment that is smeared on has none. */
const unlessSmeared = (value: number | null, how: string, ...from: string[]): Stated<number> =>
  value === null
    ? notKnown('It is smeared on, and nobody knows how much of it that is.')
    : computed(value, how, ...from);

const written = (dose: Temporal.ZonedDateTime): string =>
  dose.toString({ smallestUnit: 'minute', timeZoneName: 'never' });

/** What is wrong with the time of the first home dose. */
function timing(
  { value, at }: Located<HomeText>,
  index: number,
  zones: Zones,
  time: Timeline,
  before: Temporal.ZonedDateTime | null,
  { exact, printed: first }: Readonly<Record<'exact' | 'printed', Temporal.ZonedDateTime>>,
): Problem[] {
  const medicine = value.home.medicines[index] as MedicineText;
  const interval = shortestInterval(rhythmOf(medicine));
  const home = value.surgery.discharge;
  const discharge = time.local(home).toZonedDateTime(zones.clinic);
  const place = (name: string) => at('home', 'medicines', index, name);
  const last = medicine['last given'] as string;
  if (before && Temporal.ZonedDateTime.compare(before, discharge) > 0) {
    return [
      {
        kind: 'a last dose after discharge',
        ...place('last given'),
        found: last,
        expected: `a time before the patient goes home at ${home}`,
        mend: 'Mend one of the two; a dose that is given at home is not "last given".',
      },
    ];
  }
  const problems: Problem[] = [];
  // What the clinic's own rule adds to the gap is not for the veterinarian to decide again.
  const gap = before ? before.until(exact).total('hours') : 0;
  if (gap > interval * LONGEST_FIRST_GAP && !medicine.first) {
    problems.push({
      kind: 'a long gap before the first home dose',
      ...place('at'),
      found: `a first home dose ${roundTo(gap, 1)} h after the last one in the clinic`,
      expected: `at most ${LONGEST_FIRST_GAP} times the interval of ${roundTo(interval, 1)} h`,
      mend: 'Decide on the first home dose and write it, for example "first: 2026-03-11 08:00".',
    });
  }
  if (medicine.first && before && tooSoon(before, first, interval)) {
    problems.push({
      kind: 'a first home dose too soon',
      ...place('first'),
      found: medicine.first,
      expected: `at least ${roundTo(interval, 1)} h after the last dose in the clinic at ${last}`,
      mend: 'Write a later first dose, or mend the time of the last one.',
    });
  }
  if (Temporal.ZonedDateTime.compare(first, discharge) < 0) {
    const where = zones.home === zones.clinic ? '' : ` in ${zones.home}`;
    problems.push({
      kind: 'a home dose before discharge',
      ...place(medicine.first ? 'first' : 'last given'),
      found: `a first home dose at ${minutePrecision(first.toPlainDateTime()).replace('T', ' ')}${where}`,
      expected: `a time after the patient goes home at ${home}`,
      mend: 'Record the dose that is given in the clinic before discharge as "last given".',
    });
  }
  return problems;
}

/** What is wrong with the amount of one dose. */
function amountProblems(
  { value, at }: Located<HomeText>,
  index: number,
  measure: ReturnType<typeof measureOf>,
): Problem[] {
  if (measure.kind !== 'unmeasurable') return [];
  const { give } = value.home.medicines[index] as MedicineText;
  const instead = measure.nearest.map((amount) => writtenAmount(amount, give.unit)).join(' or ');
  return [
    {
      kind: 'a dose that cannot be measured',
      ...at('home', 'medicines', index, 'give'),
      found: give.written,
      expected: measure.expected,
      mend: `Give ${instead}, or use another strength.`,
    },
  ];
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

function rhythmOf(medicine: MedicineText): Rhythm {
  return medicine.at
    ? { kind: 'at', times: [...medicine.at].sort() }
    : { kind: 'every', hours: (medicine.every as NonNullable<typeof medicine.every>).value };
}
