import type { Temporal } from 'temporal-polyfill';
import type { PlannedMedicine } from '../care/dose-check/planned-medicine.js';
import {
  clockChanges,
  homeDoses,
  mostInDay,
  type Rhythm,
  shortestInterval,
} from '../care/doses.js';
import type { HomeText } from '../record/case-schema.js';
import { DOSE_STEPS } from '../record/clinic-schema.js';
import type { MedicineText } from '../record/medicine-schema.js';
import { bad, good, type Outcome, type Problem } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { roundTo } from '../units/round.js';
import type { MedicinePlace } from './asked.js';
import type { HomeMedicine, MedicineFacts } from './case-facts.js';
import { computed, type Fact } from './fact.js';
import { firstDoseProblems, lastAfterDischarge, type Zones } from './first-dose.js';
import { amountProblems, givenFacts, oneDose, plannedDose } from './one-dose.js';
import type { Timeline } from './timeline.js';

/**
 * A gap of more than this many intervals between the last clinic dose and the first at home is for a veterinarian to set.
 * From memory, unverified: no published limit was found; it only decides when the tool asks.
 */
export const LONGEST_FIRST_GAP = 1.5;

/** Where the rule stands that rounds first doses. */
export const ROUNDING_FROM = 'clinic.yaml home doses';

/** The steps of the clock to which a clinic rounds first doses up. */
export type Rounding = keyof typeof DOSE_STEPS;

/** A medicine with the plan that is checked against the formulary, whatever else is wrong with it. */
export interface HomePlan<Facts extends HomeMedicine = MedicineFacts> {
  readonly place: MedicinePlace;
  readonly planned: PlannedMedicine;
  /** The field of the record that says how long it is from dose to dose. */
  readonly rhythmField: string;
  readonly medicine: Outcome<Omit<Facts, 'checked'>>;
}

/** All doses of one medicine with hours of its own, what they come to, and how they are measured. */
export function medicineFacts(
  record: Located<HomeText>,
  index: number,
  zones: Zones,
  time: Timeline,
  weight: Fact<Kilogram>,
  rounding: Rounding | undefined,
): HomePlan {
  const { value, where } = record;
  const place = ['home', 'medicines', index] as const;
  const medicine = value.home.medicines[index] as MedicineText;
  const field = (name: string) => where(...place, name);
  const rhythm = rhythmOf(medicine);
  const interval = shortestInterval(rhythm);
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
  const first = doses[0] as Temporal.ZonedDateTime;
  const rounded = !first.equals(exact);
  const before = lastGiven?.toZonedDateTime(zones.clinic) ?? null;
  const dose = oneDose(medicine, weight.value);
  const { measure } = dose;
  const late = lastAfterDischarge(record, place, medicine, zones, time);
  const problems = [
    ...(late.length > 0
      ? late
      : [
          ...longGap(record, place, medicine, interval, before, exact),
          ...firstDoseProblems(record, place, medicine, { first, before, interval }, zones, time),
        ]),
    ...amountProblems(record, place, medicine, dose),
  ];
  const inDay = mostInDay(rhythm, doses);
  const zoneFrom = value.home['at home in'] ? where('home', 'at home in') : 'clinic.yaml time zone';
  const plans = {
    place,
    rhythmField: rhythm.kind,
    planned: {
      ...plannedDose(medicine, dose, inDay),
      hours: interval,
      lastGiven: before,
      doses,
      asNeededUntil: null,
    },
  };
  if (problems.length > 0 || measure.kind === 'unmeasurable') {
    return { ...plans, medicine: bad(...problems) };
  }
  return {
    ...plans,
    medicine: good({
      ...givenFacts(
        record,
        place,
        medicine,
        { ...dose, measure },
        {
          inAll: medicine.doses,
          inDay,
          inAllFrom: [field('doses')],
          inDayFrom: [field(rhythm.kind), field(medicine.first ? 'first' : 'last given')],
        },
        time,
        weight,
      ),
      rhythm,
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

/** `2026-03-10T20:00-05:00` */
export const written = (dose: Temporal.ZonedDateTime): string =>
  dose.toString({ smallestUnit: 'minute', timeZoneName: 'never' });

/**
 * A gap before the first home dose that is for a veterinarian to set. What the clinic's own rule of rounding adds to it is
 * not to be decided again.
 */
function longGap(
  { at }: Located<HomeText>,
  place: MedicinePlace,
  { first }: MedicineText,
  interval: number,
  before: Temporal.ZonedDateTime | null,
  exact: Temporal.ZonedDateTime,
): Problem[] {
  const gap = before ? before.until(exact).total('hours') : 0;
  if (gap <= interval * LONGEST_FIRST_GAP || first) return [];
  return [
    {
      kind: 'a long gap before the first home dose',
      ...at(...place, 'at'),
      found: `a first home dose ${roundTo(gap, 1)} h after the last one in the clinic`,
      expected: `at most ${LONGEST_FIRST_GAP} times the interval of ${roundTo(interval, 1)} h`,
      mend: 'Decide on the first home dose and write it, for example "first: 2026-03-11 08:00".',
    },
  ];
}

function rhythmOf(medicine: MedicineText): Rhythm {
  return medicine.at
    ? { kind: 'at', times: [...medicine.at].sort() }
    : { kind: 'every', hours: (medicine.every as NonNullable<typeof medicine.every>).value };
}
