import type { PlannedMedicine } from '../care/dose-check/planned-medicine.js';
import { type Measure, measureOf, type Unmeasurable } from '../care/measure.js';
import type { HomeText } from '../record/case-schema.js';
import { type GivenText, isSmeared } from '../record/medicine-schema.js';
import type { Problem } from '../record/problem.js';
import { writtenAmount } from '../record/quantity.js';
import type { Located } from '../record/yaml-file.js';
import type { Kilogram } from '../units/brands.js';
import { toMilligram } from '../units/convert.js';
import { roundTo } from '../units/round.js';
import type { MedicinePlace } from './asked.js';
import type { HomeMedicine } from './case-facts.js';
import { computed, type Fact, notKnown, recorded, type Stated } from './fact.js';
import { amountAtOnce, DROPS_IN_ML, isDropped } from './one-amount.js';
import { minutePrecision, type Timeline } from './timeline.js';

/** One dose of a medicine for home in numbers. */
export interface OneDose {
  /** In the unit of `give`, all eyes or ears together. */
  readonly amount: number;
  /** mg, and mg per kg of body weight; null of what is smeared on. */
  readonly milligram: number | null;
  readonly perKilogram: number | null;
  readonly measure: Measure | Unmeasurable;
  /** For how many doses what was handed out is enough; null where that is not recorded or cannot be counted. */
  readonly handedOut: number | null;
}

/** What one dose comes to. @param weight kg */
export function oneDose(medicine: GivenText, weight: Kilogram): OneDose {
  const { give, strength, dispensed } = medicine;
  const amount = amountAtOnce(medicine);
  const smeared = isSmeared(give.unit);
  const milligram = smeared
    ? null
    : toMilligram(strength.value, strength.unit) *
      (isDropped(medicine) ? amount / DROPS_IN_ML : amount);
  return {
    amount,
    milligram,
    perKilogram: milligram === null ? null : milligram / weight,
    measure: measureOf(give.value, give.unit, medicine['do not cut'] === 'no'),
    handedOut:
      dispensed === undefined || smeared
        ? null
        : // Half of a binary fraction is no dose more.
          Math.floor(roundTo((dispensed.value * inHolder(medicine)) / amount, 6)),
  };
}

/** How many of the unit that is given are in one of the unit that is handed out. */
const inHolder = ({ give, dispensed }: GivenText): number =>
  dispensed === undefined || dispensed.unit === give.unit ? 1 : DROPS_IN_ML;

/** What the dose checks ask of one dose. @param inDay the most doses within 24 hours */
export const plannedDose = (
  medicine: GivenText,
  { perKilogram }: OneDose,
  inDay: number,
): Pick<
  PlannedMedicine,
  'drug' | 'purpose' | 'route' | 'food' | 'give' | 'perKilogram' | 'perKilogramDay'
> => ({
  drug: medicine.drug,
  purpose: medicine.for,
  route: medicine.route,
  food: medicine.food,
  give: medicine.give,
  perKilogram,
  perKilogramDay: perKilogram === null ? null : perKilogram * inDay,
});

/** What so many doses need, in the unit of `give`; null of what is smeared on. */
const neededFor = ({ amount, milligram }: OneDose, doses: number): number | null =>
  milligram === null ? null : roundTo(amount * doses, 4);

/** How often a medicine is given at most, and which fields say so. */
export interface MostGiven {
  readonly inAll: number;
  readonly inDay: number;
  readonly inAllFrom: readonly string[];
  readonly inDayFrom: readonly string[];
}

/** What is stated of every medicine for home, by hours or as needed. */
export function givenFacts(
  { where }: Located<HomeText>,
  place: MedicinePlace,
  medicine: GivenText,
  dose: OneDose & { readonly measure: Measure },
  most: MostGiven,
  time: Timeline,
  weight: Fact<Kilogram>,
): Omit<HomeMedicine, 'checked'> {
  const field = (name: string) => where(...place, name);
  const amountFrom = [field('strength'), field('give')];
  const { milligram, perKilogram, measure } = dose;
  const { inDay } = most;
  const lastGiven = medicine['last given'];
  return {
    drug: medicine.drug,
    purpose: medicine.for,
    strength: medicine.strength.written,
    give: medicine.give,
    route: medicine.route,
    food: medicine.food,
    measure: computed(measure, 'what can be counted, cut or drawn up', field('give')),
    lastGiven: lastGiven
      ? recorded(minutePrecision(time.local(lastGiven)), field('last given'))
      : notKnown('None was given in the clinic.'),
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
      perKilogram === null ? null : perKilogram * inDay,
      `mg/kg times the ${inDay} ${inDay === 1 ? 'dose' : 'doses'} that can fall within 24 h`,
      ...amountFrom,
      ...weight.from,
      ...most.inDayFrom,
    ),
    needed: unlessSmeared(
      neededFor(dose, most.inAll),
      'amount times number of doses',
      field('give'),
      ...most.inAllFrom,
    ),
    dispensed: medicine.dispensed
      ? recorded(medicine.dispensed, field('dispensed'))
      : notKnown('The record does not say how much was handed out.'),
  };
}

/** What is computed from a mass; an ointment that is smeared on has none. */
const unlessSmeared = (value: number | null, how: string, ...from: string[]): Stated<number> =>
  value === null
    ? notKnown('It is smeared on, and nobody knows how much of it that is.')
    : computed(value, how, ...from);

/** What is wrong with the amount of one dose. */
export function amountProblems(
  { at }: Located<HomeText>,
  place: MedicinePlace,
  { give }: GivenText,
  { measure }: OneDose,
): Problem[] {
  if (measure.kind !== 'unmeasurable') return [];
  const instead = measure.nearest.map((amount) => writtenAmount(amount, give.unit)).join(' or ');
  return [
    {
      kind: 'a dose that cannot be measured',
      ...at(...place, 'give'),
      found: give.written,
      expected: measure.expected,
      mend: `Give ${instead}, or use another strength.`,
    },
  ];
}

/** What was handed out where it is not enough for one dose. */
export const lessThanOneDose = (
  { at }: Located<HomeText>,
  place: MedicinePlace,
  { give, dispensed }: GivenText,
  dose: OneDose,
): Problem[] =>
  dispensed === undefined || dose.handedOut !== 0
    ? []
    : [
        {
          kind: 'too little dispensed',
          ...at(...place, 'dispensed'),
          found: dispensed.written,
          expected: `at least ${writtenAmount(dose.amount, give.unit)} for 1 dose of ${give.written}`,
          mend: 'Hand out more, or give less.',
        },
      ];
