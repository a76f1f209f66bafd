import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { Warning } from '../record/problem.js';
import type { ProblemKind } from '../record/problem-kind.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, type MedicinePlace, partOf } from './asked.js';
import type { HomeFacts, HomeMedicine } from './case-facts.js';

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
  { medicines, asNeeded }: HomeFacts,
): Warning[] =>
  [
    ...medicines.map((facts, index): Course => {
      const doses = facts.doses.value;
      const last = doses.at(-1) as string;
      return {
        facts,
        place: ['home', 'medicines', index],
        field: 'doses',
        days:
          Temporal.Instant.from(doses[0] as string)
            .until(Temporal.Instant.from(last))
            .total('hours') / 24,
        told: `${doses.length} doses, the last on ${last.slice(0, 10)}`,
        doses: `${doses.length} doses take`,
      };
    }),
    ...asNeeded.map((facts, index): Course => {
      const last = facts.until.value;
      return {
        facts,
        place: ['home', 'as needed', index],
        field: 'until',
        days: dayOf(facts.notBefore.value).until(dayOf(last)).days,
        told: `as needed until ${last}`,
        doses: `the ${facts.mostDoses.value} doses take that may be given`,
      };
    }),
  ].flatMap(({ facts, place, field, days, told, doses }): Warning[] => {
    const said = (kind: ProblemKind, of: string) => ({
      ...at(...place, of),
      ...asked(kind, partOf.medicine(value, place)),
    });
    const handed = facts.dispensed.value;
    const needed = facts.needed.value;
    return [
      ...(days > LONGEST_COURSE
        ? [
            {
              ...said('a course that lasts for long', field),
              found: told,
              expected: `at most ${LONGEST_COURSE} days of doses`,
            },
          ]
        : []),
      ...(needed !== null &&
      (handed?.unit === 'tablet' || handed?.unit === 'capsule') &&
      handed.value > needed * MOST_LEFT
        ? [
            {
              ...said('much more handed out than is given', 'dispensed'),
              found: handed.written,
              expected: `at most ${MOST_LEFT} times the ${roundTo(needed, 2)} that ${doses}`,
            },
          ]
        : []),
    ];
  });

/** From the first dose to the last one, or to the last day. */
interface Course {
  readonly facts: HomeMedicine;
  readonly place: MedicinePlace;
  /** The field of the record that ends it. */
  readonly field: string;
  readonly days: number;
  /** How it ends, and what its doses take, as messages say it. */
  readonly told: string;
  readonly doses: string;
}

const dayOf = (written: string) => Temporal.PlainDate.from(written.slice(0, 10));
