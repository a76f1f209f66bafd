import { Temporal } from 'temporal-polyfill';
import { endOf, roomInDay, soonestDoses } from '../care/as-needed.js';
import { onStep } from '../care/doses.js';
import type { AsNeededText } from '../record/as-needed-schema.js';
import type { HomeText } from '../record/case-schema.js';
import { DOSE_STEPS } from '../record/clinic-schema.js';
import { bad, good, type Problem } from '../record/problem.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { roundTo } from '../units/round.js';
import type { MedicinePlace } from './asked.js';
import type { AsNeededFacts } from './case-facts.js';
import { computed, type Fact, notKnown, recorded } from './fact.js';
import { firstDoseProblems, lastAfterDischarge, type Zones } from './first-dose.js';
import { type HomePlan, ROUNDING_FROM, type Rounding, written } from './medicine.js';
import { amountProblems, givenFacts, lessThanOneDose, oneDose, plannedDose } from './one-dose.js';
import type { Timeline } from './timeline.js';

/** The limits of one medicine as needed, what its doses come to, and how they are measured. */
export function asNeededFacts(
  record: Located<HomeText>,
  index: number,
  zones: Zones,
  time: Timeline,
  weight: Fact<Kilogram>,
  rounding: Rounding | undefined,
): HomePlan<AsNeededFacts> {
  const { value, where } = record;
  const place = ['home', 'as needed', index] as const;
  const medicine = value.home['as needed'][index] as AsNeededText;
  const field = (name: string) => where(...place, name);
  const apart = medicine['at least apart'].value;
  const { 'a day': dayLimit, 'in all': inAll } = medicine['up to'];
  const before = medicine['last given']
    ? time.local(medicine['last given']).toZonedDateTime(zones.clinic)
    : null;
  const from = earliest(record, medicine, place, before, zones, time, rounding);
  const limits = {
    from: from.moment,
    until: Temporal.PlainDate.from(medicine.until),
    apart,
    inDay: dayLimit ?? roomInDay(apart),
    inAll: inAll ?? null,
  };
  const doses = soonestDoses(limits);
  const mostInDay = Math.min(limits.inDay, Math.max(1, doses.length));
  const dose = oneDose(medicine, weight.value);
  const { measure, handedOut } = dose;
  const late = lastAfterDischarge(record, place, medicine, zones, time);
  const contrary =
    late.length > 0
      ? late
      : firstDoseProblems(
          record,
          place,
          medicine,
          { first: from.moment, before, interval: apart },
          zones,
          time,
        );
  const problems = [
    ...contrary,
    ...(contrary.length > 0 ? [] : limitProblems(record, place, medicine, limits, doses.length)),
    ...amountProblems(record, place, medicine, dose),
    ...lessThanOneDose(record, place, medicine, dose),
  ];
  const plan = {
    place,
    rhythmField: 'at least apart',
    planned: {
      ...plannedDose(medicine, dose, mostInDay),
      hours: apart,
      lastGiven: before,
      // What can never be given has a problem of its own, and is checked all the same.
      doses: doses.length > 0 ? doses : [from.moment],
      asNeededUntil: endOf(limits),
    },
  };
  if (problems.length > 0 || measure.kind === 'unmeasurable') {
    return { ...plan, medicine: bad(...problems) };
  }
  const limitFrom = [field('at least apart'), where(...place, 'up to'), field('until')];
  const mostFrom = [...limitFrom, ...from.from];
  return {
    ...plan,
    medicine: good({
      ...givenFacts(
        record,
        place,
        medicine,
        { ...dose, measure },
        {
          inAll: doses.length,
          inDay: mostInDay,
          inAllFrom: mostFrom,
          inDayFrom: limitFrom,
        },
        time,
        weight,
      ),
      sign: recorded(medicine.if, field('if')),
      apart: recorded(apart, field('at least apart')),
      mostInDay:
        dayLimit === undefined
          ? computed(
              limits.inDay,
              `the doses within 24 h that ${roundTo(apart, 2)} h between two of them leave room for`,
              field('at least apart'),
            )
          : recorded(dayLimit, where(...place, 'up to', 'a day')),
      mostInAll:
        inAll === undefined
          ? notKnown('The record sets no most for all doses together.')
          : recorded(inAll, where(...place, 'up to', 'in all')),
      mostDoses: computed(
        doses.length,
        'the doses that fit between the first moment and the end of the last day, each as early as the limits allow',
        ...mostFrom,
      ),
      notBefore: computed(written(from.moment), from.how, ...from.from),
      until: recorded(medicine.until, field('until')),
      enoughFor:
        handedOut === null
          ? notKnown('The record does not say how much was handed out, or it cannot be counted.')
          : computed(
              handedOut,
              'whole doses in what was handed out',
              field('dispensed'),
              field('give'),
            ),
    }),
  };
}

/** When it may be given at first, and why not before. */
interface Earliest {
  readonly moment: Temporal.ZonedDateTime;
  readonly how: string;
  readonly from: readonly string[];
}

/** As the record sets it; else the way home, or later where the last dose in the clinic is not so long ago. */
function earliest(
  { value, where }: Located<HomeText>,
  medicine: AsNeededText,
  place: MedicinePlace,
  before: Temporal.ZonedDateTime | null,
  zones: Zones,
  time: Timeline,
  rounding: Rounding | undefined,
): Earliest {
  const zoneFrom = value.home['at home in'] ? where('home', 'at home in') : 'clinic.yaml time zone';
  if (medicine.first) {
    return {
      moment: time.local(medicine.first).toZonedDateTime(zones.home),
      how: 'recorded',
      from: [where(...place, 'first'), zoneFrom],
    };
  }
  const discharge = time
    .local(value.surgery.discharge)
    .toZonedDateTime(zones.clinic)
    .withTimeZone(zones.home);
  const minutes = Math.round(medicine['at least apart'].value * 60);
  const free = before?.withTimeZone(zones.home).add({ minutes });
  if (!free || Temporal.ZonedDateTime.compare(free, discharge) <= 0) {
    return {
      moment: discharge,
      how: free
        ? 'the way home, as the last dose in the clinic is long enough ago'
        : 'the way home, as none was given in the clinic',
      from: [
        where('surgery', 'discharge'),
        ...(free ? [where(...place, 'last given')] : []),
        zoneFrom,
      ],
    };
  }
  const moment = rounding ? onStep(free, DOSE_STEPS[rounding]) : free;
  const rounded = !moment.equals(free);
  return {
    moment,
    how: `the hours from dose to dose after the last one in the clinic, elapsed${rounded ? `, rounded up to the next ${rounding} of the clock` : ''}`,
    from: [
      where(...place, 'last given'),
      where(...place, 'at least apart'),
      zoneFrom,
      ...(rounded ? [ROUNDING_FROM] : []),
    ],
  };
}

/** Limits that leave no room for a dose, or that cannot all be meant. @param most doses that they leave room for */
function limitProblems(
  { at }: Located<HomeText>,
  place: MedicinePlace,
  medicine: AsNeededText,
  { from, apart }: { from: Temporal.ZonedDateTime; apart: number },
  most: number,
): Problem[] {
  const { 'a day': inDay, 'in all': inAll } = medicine['up to'];
  if (most === 0) {
    return [
      {
        kind: 'a medicine as needed that can never be given',
        ...at(...place, 'until'),
        found: medicine.until,
        expected: `a day not before ${from.toPlainDate()}, as it may be given from ${written(from).slice(0, 16).replace('T', ' ')} on`,
        mend: 'Mend the last day, or the time from which it may be given.',
      },
    ];
  }
  const contradict = (key: 'a day' | 'in all', found: string, expected: string): Problem => ({
    kind: 'limits of a medicine that do not fit together',
    ...at(...place, 'up to', key),
    found,
    expected,
    mend: 'Mend the one that is not meant, or leave it out.',
  });
  const room = roomInDay(apart);
  if (inDay !== undefined && inDay > room) {
    return [
      contradict(
        'a day',
        `up to ${inDay} doses a day, at least ${roundTo(apart, 2)} h apart`,
        `at most ${room}, for which there is room within 24 h`,
      ),
    ];
  }
  if (inAll !== undefined && inAll > most) {
    return [
      contradict(
        'in all',
        `up to ${inAll} doses in all`,
        `at most ${most}, for which there is room until the end of ${medicine.until}`,
      ),
    ];
  }
  if (inDay !== undefined && inAll !== undefined && inDay > inAll) {
    return [
      contradict(
        'a day',
        `up to ${inDay} doses a day, and ${inAll} in all`,
        `at most ${inAll} a day`,
      ),
    ];
  }
  return [];
}
