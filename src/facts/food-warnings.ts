import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { asked, partOf, type Question } from './asked.js';
import type { MedicineFacts } from './case-facts.js';
import type { Timeline } from './timeline.js';

/**
 * Hours around a dose on an empty stomach in which no other medicine asks for food: a meal at either end is still in the
 * stomach. Own choice, not a clinical number.
 */
const EMPTY_AROUND = 1;

/** Doses whose meal cannot be: before the patient may eat, or beside a dose that wants an empty stomach. */
export function foodWarnings(
  record: Located<HomeText>,
  clinicZone: string,
  time: Timeline,
  medicines: readonly MedicineFacts[],
): Question[] {
  return medicines.flatMap((_, index) => [
    ...beforeFirstMeal(record, clinicZone, time, medicines, index),
    ...besideEmptyStomach(record, medicines, index),
  ]);
}

function beforeFirstMeal(
  { value, at }: Located<HomeText>,
  clinicZone: string,
  time: Timeline,
  medicines: readonly MedicineFacts[],
  index: number,
): Question[] {
  const { drug, food, doses } = medicines[index] as MedicineFacts;
  const meal = value.home.food;
  const [first] = doses.value;
  if (food !== 'with food' || !meal || first === undefined) return [];
  const from = time.local(meal.from).toZonedDateTime(clinicZone).toInstant();
  if (Temporal.Instant.compare(Temporal.Instant.from(first), from) >= 0) return [];
  return [
    {
      ...asked(
        'a dose with food before the first meal',
        partOf.medicine(value, ['home', 'medicines', index]),
      ),
      ...at('home', 'medicines', index, 'food'),
      found: `${drug} with food at ${told(first)}`,
      expected: `a first dose with food from the first meal on, at ${meal.from}`,
    },
  ];
}

function besideEmptyStomach(
  { value, at }: Located<HomeText>,
  medicines: readonly MedicineFacts[],
  index: number,
): Question[] {
  const one = medicines[index] as MedicineFacts;
  return medicines.slice(0, index).flatMap((other): Question[] => {
    const foods = [one.food, other.food];
    if (!foods.includes('with food') || !foods.includes('without food')) return [];
    const met = one.doses.value.find((dose) =>
      other.doses.value.some((beside) => hoursBetween(dose, beside) <= EMPTY_AROUND),
    );
    if (met === undefined) return [];
    return [
      {
        ...asked(
          'food beside a dose on an empty stomach',
          partOf.medicine(value, ['home', 'medicines', index]),
        ),
        ...at('home', 'medicines', index, 'food'),
        found: `${one.drug} ${one.food} at ${told(met)}, and ${other.drug} ${other.food} at most ${EMPTY_AROUND} h from it`,
        expected: `more than ${EMPTY_AROUND} h between food and a dose on an empty stomach`,
      },
    ];
  });
}

const hoursBetween = (a: string, b: string): number =>
  Math.abs(Temporal.Instant.from(a).until(Temporal.Instant.from(b)).total('hours'));

/** `2026-03-09 20:40` */
const told = (dose: string): string => dose.slice(0, 16).replace('T', ' ');
