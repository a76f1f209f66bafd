import type { Temporal } from 'temporal-polyfill';
import { type Formulary, sameDrug } from '../../record/formulary-schema.js';
import { roundTo } from '../../units/round.js';
import { above, shown } from './amounts.js';
import { hoursApart, SAME_DAY } from './between-doses.js';
import { type Said, warn } from './finding.js';
import type { Checked } from './formulary-row.js';
import type { GivenDose, PlannedMedicine } from './planned-medicine.js';
import { clash, shared } from './shared-ingredients.js';

/** What speaks against a medicine for home beside what was given in the clinic. */
export function againstClinic(
  formulary: Formulary | null,
  row: Checked,
  medicine: PlannedMedicine,
  given: readonly GivenDose[],
): Said[] {
  const first = medicine.doses[0] as Temporal.ZonedDateTime;
  const near = given.filter(({ at }) => hoursApart(at, first) <= SAME_DAY);
  const clashing = near.flatMap(({ drug }) => {
    const why = clash(formulary, drug, medicine.drug);
    const found = `${medicine.drug} within ${SAME_DAY} h of ${drug} in the clinic`;
    return why ? [warn('drugs that do not go together', 'drug', found, why)] : [];
  });
  return [
    ...forgotten(formulary, medicine, first, given),
    // A drug that was given twice in the clinic clashes once.
    ...clashing.filter(
      ({ found }, place) => clashing.findIndex((other) => other.found === found) === place,
    ),
    ...dayWithClinic(formulary, row, medicine, given),
  ];
}

/** A clinic dose of the same ingredient that the plan does not count from, and that is too near to the first home dose. */
function forgotten(
  formulary: Formulary | null,
  { drug, hours, lastGiven }: PlannedMedicine,
  first: Temporal.ZonedDateTime,
  given: readonly GivenDose[],
): Said[] {
  const known = lastGiven?.epochMilliseconds ?? Number.NEGATIVE_INFINITY;
  const missed = given
    .filter((dose) => shared(formulary, dose.drug, drug).length > 0)
    .filter(({ at }) => at.epochMilliseconds > known && hoursApart(at, first) < hours)
    .sort((a, b) => b.at.epochMilliseconds - a.at.epochMilliseconds)[0];
  if (!missed) return [];
  return [
    warn(
      'a dose in the clinic that the plan does not count',
      'drug',
      `${drug} ${roundTo(hoursApart(missed.at, first), 1)} h after ${missed.drug} in the clinic`,
      `at least the interval of ${shown(hours)} h, and "last given" at the time of that dose`,
    ),
  ];
}

/**
 * The clinic doses and the first home doses within 24 hours together, where they come to more than a day's most of the
 * medicine for home. Doses of another medicine count whole, with each ingredient that both hold: what part of a combination
 * is which ingredient no record tells. A dose in the clinic without a mass cannot be added, and is told.
 */
function dayWithClinic(
  formulary: Formulary | null,
  row: Checked,
  medicine: PlannedMedicine,
  given: readonly GivenDose[],
): Said[] {
  const { drug, perKilogram } = medicine;
  if (row.kind !== 'checked' || perKilogram === null) return [];
  const inCommon = (dose: GivenDose) => shared(formulary, dose.drug, drug);
  const days = [...new Set(given.flatMap(inCommon))].flatMap((ingredient) =>
    daysBegunInClinic(
      medicine,
      given.filter((dose) => inCommon(dose).includes(ingredient)),
    ),
  );
  const sumOf = ({ clinic, home }: SharedDay): number =>
    clinic.reduce((sum, dose) => sum + (dose.perKilogram ?? 0), home * perKilogram);
  const fullest = days.toSorted((a, b) => sumOf(b) - sumOf(a))[0];
  if (fullest && above(sumOf(fullest), row.mostInDay)) {
    const others = namesOf(fullest.clinic.filter((dose) => !sameDrug(dose.drug, drug)));
    const those = others === '' ? 'the doses' : `the doses of ${others}`;
    return [
      warn(
        'more than the most in a day',
        'give',
        `${shown(sumOf(fullest))} mg/kg of ${drug} within ${SAME_DAY} h, ${those} in the clinic included`,
        `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
      ),
    ];
  }
  const unknown = days.flatMap(({ clinic }) => clinic.filter((dose) => dose.perKilogram === null));
  if (unknown.length === 0) return [];
  return [
    {
      kind: 'a medicine that nothing was checked against',
      weight: 'warn',
      field: 'give',
      found: `${drug} within ${SAME_DAY} h of ${namesOf(unknown)} in the clinic, whose mass is not known`,
      expected: `a dose in mg or mcg there, to add to those at home: together at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
      mend: 'Write the dose in the clinic by its mass',
    },
  ];
}

/** What falls within 24 hours from a dose in the clinic on. */
interface SharedDay {
  readonly clinic: readonly GivenDose[];
  /** How many doses at home, at least one. */
  readonly home: number;
}

function daysBegunInClinic(
  { doses }: PlannedMedicine,
  clinic: readonly GivenDose[],
): readonly SharedDay[] {
  return clinic.flatMap(({ at: begin }) => {
    const inDay = (at: Temporal.ZonedDateTime) =>
      at.epochMilliseconds >= begin.epochMilliseconds && hoursApart(begin, at) < SAME_DAY;
    const home = doses.filter(inDay).length;
    return home === 0 ? [] : [{ clinic: clinic.filter(({ at }) => inDay(at)), home }];
  });
}

/** Each drug once, in the words of the record. */
const namesOf = (doses: readonly GivenDose[]): string =>
  doses
    .map(({ drug }) => drug)
    .filter((name, place, all) => all.findIndex((other) => sameDrug(other, name)) === place)
    .join(' and ');
