import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { ProblemKind } from '../record/problem-kind.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { MedicineFacts } from './case-facts.js';
import { type Supply, supplyOf } from './supplies.js';

/** Days of one medicine after which its number of doses is rather mistyped. Own choice, not a clinical number. */
const LONGEST_COURSE = 90;

/**
 * How many times the need of a course may be handed out in whole tablets or capsules: a pack is not always parted, but what
 * is left is given to somebody. Own choice, not a clinical number.
 */
const MOST_LEFT = 5;

const isTooMuch = ({ handed, needed }: Supply): boolean =>
  handed !== null && needed !== null && handed > needed * MOST_LEFT;

/** How many doses are given from a supply. */
const dosesFrom = ({ steps }: Supply, medicines: readonly MedicineFacts[]): number =>
  steps.reduce((sum, step) => sum + (medicines[step]?.doses.value.length ?? 0), 0);

/** Courses and amounts that look as if a digit stood too much in them. */
export const courseWarnings = (
  { value, at }: Located<HomeText>,
  medicines: readonly MedicineFacts[],
): Question[] =>
  medicines.flatMap(({ doses, dispensed }, index): Question[] => {
    const said = (kind: ProblemKind, field: string) => ({
      ...at('home', 'medicines', index, field),
      ...asked(kind, partOf.medicine(value, index)),
    });
    const [first, last] = [doses.value[0], doses.value.at(-1)] as [string, string];
    const days =
      Temporal.Instant.from(first).until(Temporal.Instant.from(last)).total('hours') / 24;
    const supply = supplyOf(value.home.medicines, index);
    const handed = dispensed.value;
    return [
      ...(days > LONGEST_COURSE
        ? [
            {
              ...said('a course that lasts for long', 'doses'),
              found: `${doses.value.length} doses, the last on ${last.slice(0, 10)}`,
              expected: `at most ${LONGEST_COURSE} days of doses`,
            },
          ]
        : []),
      ...((handed?.unit === 'tablet' || handed?.unit === 'capsule') &&
      index === supply.told.at(-1) &&
      isTooMuch(supply)
        ? [
            {
              ...said('much more handed out than is given', 'dispensed'),
              found: supply.told.length === 1 ? handed.written : `${supply.handed} in all`,
              expected: `at most ${MOST_LEFT} times the ${roundTo(supply.needed ?? 0, 2)} that ${dosesFrom(supply, medicines)} doses take`,
            },
          ]
        : []),
    ];
  });
