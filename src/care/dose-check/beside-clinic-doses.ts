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
    ...dayWithClinic(row, medicine, given),
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

/** The clinic doses and the first home doses within 24 hours together, where they come to more than a day's most. */
function dayWithClinic(
  row: Checked,
  { drug, perKilogram, doses }: PlannedMedicine,
  given: readonly GivenDose[],
): Said[] {
  if (row.kind !== 'checked' || perKilogram === null) return [];
  const clinic = given.filter((dose) => sameDrug(dose.drug, drug));
  const sums = clinic.map((start) => {
    const inDay = (at: Temporal.ZonedDateTime) =>
      at.epochMilliseconds >= start.at.epochMilliseconds && hoursApart(start.at, at) < SAME_DAY;
    const home = doses.filter(inDay).length * perKilogram;
    const there = clinic.filter(({ at }) => inDay(at)).map((dose) => dose.perKilogram ?? 0);
    return home === 0 ? 0 : there.reduce((sum, dose) => sum + dose, home);
  });
  const most = Math.max(0, ...sums);
  if (!above(most, row.mostInDay)) return [];
  return [
    warn(
      'more than the most in a day',
      'give',
      `${shown(most)} mg/kg of ${drug} within 24 h, the doses in the clinic included`,
      `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
    ),
  ];
}
