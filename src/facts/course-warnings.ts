import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { ProblemKind } from '../record/problem-kind.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { MedicineFacts } from './case-facts.js';

/** Days of one medicine after which its number of doses is rather mistyped. Own choice, not a clinical number. */
const LONGEST_COURSE = 90;

/**
 * How many times the need of a course may be handed out in whole tablets or capsules: a pack is not always parted, but what
 * is left is given to somebody. Own choice, not a clinical number.
 */
const MOST_LEFT = 5;

/** Courses and amounts that look as if a digit stood too much in them. */
export const courseWarnings = (
  { value, at }: Located<HomeText>,
  medicines: readonly MedicineFacts[],
): Question[] =>
  medicines.flatMap(({ doses, needed, dispensed }, index): Question[] => {
    const said = (kind: ProblemKind, field: string) => ({
      ...at('home', 'medicines', index, field),
      ...asked(kind, partOf.medicine(value, index)),
    });
    const [first, last] = [doses.value[0], doses.value.at(-1)] as [string, string];
    const days =
      Temporal.Instant.from(first).until(Temporal.Instant.from(last)).total('hours') / 24;
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
      ...(needed.value !== null &&
      (handed?.unit === 'tablet' || handed?.unit === 'capsule') &&
      handed.value > needed.value * MOST_LEFT
        ? [
            {
              ...said('much more handed out than is given', 'dispensed'),
              found: handed.written,
              expected: `at most ${MOST_LEFT} times the ${roundTo(needed.value, 2)} that ${doses.value.length} doses take`,
            },
          ]
        : []),
    ];
  });
