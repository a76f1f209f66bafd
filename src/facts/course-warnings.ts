import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { ProblemKind } from '../record/problem-kind.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, type MedicinePlace, partOf, type Question } from './asked.js';
import type { AsNeededFacts, HomeFacts, HomeMedicine, MedicineFacts } from './case-facts.js';
import { supplyOf } from './supplies.js';

/** Days of one medicine after which its number of doses is rather mistyped. Own choice, not a clinical number. */
const LONGEST_COURSE = 90;

/**
 * How many times the need of a course may be handed out in whole tablets or capsules: a pack is not always parted, but what
 * is left is given to somebody. Own choice, not a clinical number.
 */
const MOST_LEFT = 5;

/** What was handed out, in whole tablets or capsules, and what of it is needed, in words of messages too. */
interface HandedOut {
  readonly handed: number;
  readonly needed: number;
  readonly written: string;
  readonly doses: string;
}

const isWhole = ({ dispensed }: HomeMedicine): boolean =>
  dispensed.value?.unit === 'tablet' || dispensed.value?.unit === 'capsule';

/** Of all steps that are given from one supply, told at the last that says what was handed out; null elsewhere, and of what is not whole. */
function handedForSteps(
  home: HomeText['home'],
  medicines: readonly MedicineFacts[],
  index: number,
): HandedOut | null {
  const { steps, told, handed, needed } = supplyOf(home.medicines, index);
  const facts = medicines[index] as MedicineFacts;
  if (!isWhole(facts) || index !== told.at(-1) || handed === null || needed === null) return null;
  const count = steps.reduce((sum, step) => sum + (medicines[step]?.doses.value.length ?? 0), 0);
  return {
    handed,
    needed,
    written: told.length === 1 ? (facts.dispensed.value?.written ?? '') : `${handed} in all`,
    doses: `${count} doses take`,
  };
}

function handedIfNeeded(facts: AsNeededFacts): HandedOut | null {
  const { dispensed, needed, mostDoses } = facts;
  return !isWhole(facts) || !dispensed.value || needed.value === null
    ? null
    : {
        handed: dispensed.value.value,
        needed: needed.value,
        written: dispensed.value.written,
        doses: `the ${mostDoses.value} doses take that may be given`,
      };
}

/** Courses and amounts that look as if a digit stood too much in them. */
export const courseWarnings = (
  { value, at }: Located<HomeText>,
  { medicines, asNeeded }: HomeFacts,
): Question[] =>
  [
    ...medicines.map((facts, index): Course => {
      const doses = facts.doses.value;
      const last = doses.at(-1) as string;
      return {
        place: ['home', 'medicines', index],
        field: 'doses',
        days:
          Temporal.Instant.from(doses[0] as string)
            .until(Temporal.Instant.from(last))
            .total('hours') / 24,
        told: `${doses.length} doses, the last on ${last.slice(0, 10)}`,
        supply: handedForSteps(value.home, medicines, index),
      };
    }),
    ...asNeeded.map((facts, index): Course => {
      const last = facts.until.value;
      return {
        place: ['home', 'as needed', index],
        field: 'until',
        days: dayOf(facts.notBefore.value).until(dayOf(last)).days,
        told: `as needed until ${last}`,
        supply: handedIfNeeded(facts),
      };
    }),
  ].flatMap(({ place, field, days, told, supply }): Question[] => {
    const said = (kind: ProblemKind, of: string) => ({
      ...at(...place, of),
      ...asked(kind, partOf.medicine(value, place)),
    });
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
      ...(supply && supply.handed > supply.needed * MOST_LEFT
        ? [
            {
              ...said('much more handed out than is given', 'dispensed'),
              found: supply.written,
              expected: `at most ${MOST_LEFT} times the ${roundTo(supply.needed, 2)} that ${supply.doses}`,
            },
          ]
        : []),
    ];
  });

/** From the first dose to the last one, or to the last day. */
interface Course {
  readonly place: MedicinePlace;
  /** The field of the record that ends it. */
  readonly field: string;
  readonly days: number;
  /** How it ends, as messages say it. */
  readonly told: string;
  readonly supply: HandedOut | null;
}

const dayOf = (written: string) => Temporal.PlainDate.from(written.slice(0, 10));
