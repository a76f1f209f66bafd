import { Temporal } from 'temporal-polyfill';
import type { HomeText } from '../record/case-schema.js';
import type { Located } from '../record/yaml-file.js';
import { roundTo } from '../units/round.js';
import { asked, partOf, type Question } from './asked.js';
import type { Zones } from './first-dose.js';
import { type HomePlan, LONGEST_FIRST_GAP } from './medicine.js';
import type { Timeline } from './timeline.js';

/**
 * Hours until which a first home dose that the record sets is taken for meant, where its interval is not longer: beyond lies
 * a slip of day, month or year, or a medicine that follows another. Own choice, not a clinical number.
 */
const LATEST_FIRST = 48;

/** Asks about a first dose that the record sets long after the way home, or after the step before it of the same medicine. */
export const lateFirst = (
  { value, at }: Located<HomeText>,
  zones: Zones,
  time: Timeline,
  plans: readonly HomePlan[],
): Question[] =>
  plans.flatMap(({ planned, place }, index) => {
    const medicine = value.home.medicines[index];
    const first = planned.doses[0] as Temporal.ZonedDateTime;
    if (!medicine?.first) return [];
    const step = stepBefore(plans, index);
    const discharge = time.local(value.surgery.discharge).toZonedDateTime(zones.clinic);
    const hours = (step ?? discharge).until(first).total('hours');
    const most = Math.max(LATEST_FIRST, planned.hours * LONGEST_FIRST_GAP);
    if (hours <= most) return [];
    const days = roundTo(hours / 24, 1);
    return [
      {
        ...asked(
          'a long gap before the first home dose',
          partOf.medicine(value, place),
          'Mend the date',
        ),
        ...at(...place, 'first'),
        found: step
          ? `a first home dose at ${medicine.first}, ${days} days after the last one of the step before`
          : `a first home dose at ${medicine.first}, ${days} days after the patient goes home`,
        expected: step
          ? `at most ${roundTo(most, 1)} h after that dose`
          : `at most ${roundTo(most, 1)} h after discharge at ${value.surgery.discharge}`,
      },
    ];
  });

/** The last dose of the same medicine, as it is listed before, that is over when this one begins; null where there is none. */
function stepBefore(plans: readonly HomePlan[], index: number): Temporal.ZonedDateTime | null {
  const { drug, doses } = (plans[index] as HomePlan).planned;
  const first = doses[0] as Temporal.ZonedDateTime;
  const over = plans
    .slice(0, index)
    .filter(({ planned }) => planned.drug.toLowerCase() === drug.toLowerCase())
    .map(({ planned }) => planned.doses.at(-1) as Temporal.ZonedDateTime)
    .filter((last) => Temporal.ZonedDateTime.compare(last, first) < 0);
  return over.sort(Temporal.ZonedDateTime.compare).at(-1) ?? null;
}
