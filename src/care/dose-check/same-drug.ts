import type { Temporal } from 'temporal-polyfill';
import { sameDrug } from '../../record/formulary-schema.js';
import { above, shown } from './amounts.js';
import { hoursApart, SAME_DAY, stretchesOf } from './between-doses.js';
import type { Said } from './finding.js';
import type { Checked } from './formulary-row.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** In milliseconds. Not a clinical number. */
const AN_HOUR = 3_600_000;
/** See above. */
const A_DAY = SAME_DAY * AN_HOUR;

/**
 * A drug that the owner has in two medicines, such as at fixed hours and as needed on top, where the most that may be given of
 * both within 24 hours is more than a day's most. What is too much by itself has been told.
 */
export function dayTogether(
  row: Checked,
  medicine: PlannedMedicine,
  others: readonly PlannedMedicine[],
): Said[] {
  const same = others.filter(({ drug }) => sameDrug(drug, medicine.drug));
  if (row.kind !== 'checked' || same.length === 0) return [];
  const all = [...same, medicine];
  if (all.some(({ perKilogramDay }) => above(perKilogramDay ?? 0, row.mostInDay))) return [];
  const most = Math.max(
    ...beginnings(all).map((from) => all.reduce((sum, one) => sum + mostWithin(one, from), 0)),
  );
  if (!above(most, row.mostInDay)) return [];
  return [
    {
      kind: 'more than the most in a day',
      weight: 'stop',
      field: 'give',
      found: `up to ${shown(most)} mg/kg of ${medicine.drug} within 24 h, all medicines of that name together`,
      expected: `at most ${shown(row.mostInDay)} mg/kg a day, as the formulary says`,
      mend: 'Give less or less often, or leave one of them out; if they are right, mend formulary.yaml.',
    },
  ];
}

/** Moments from which the fullest day can count: it has a dose or the first of a stretch at its begin, or the last at its end. */
const beginnings = (all: readonly PlannedMedicine[]): readonly Temporal.ZonedDateTime[] =>
  all
    .flatMap(stretchesOf)
    .flatMap(({ from, to }) => [from, to.subtract({ hours: SAME_DAY }).add({ minutes: 1 })]);

/** The most mg/kg of one medicine that may be given within 24 hours from a moment on. */
function mostWithin(medicine: PlannedMedicine, from: Temporal.ZonedDateTime): number {
  const { perKilogram, perKilogramDay, doses, hours, asNeededUntil } = medicine;
  if (perKilogram === null || perKilogramDay === null) return 0;
  if (asNeededUntil === null) {
    const begin = from.epochMilliseconds;
    const inDay = doses.filter(({ epochMilliseconds: at }) => at >= begin && at < begin + A_DAY);
    return inDay.filter((at) => hoursApart(from, at) < SAME_DAY).length * perKilogram;
  }
  const first = doses[0] as Temporal.ZonedDateTime;
  const begin = Math.max(first.epochMilliseconds, from.epochMilliseconds);
  const end = Math.min(asNeededUntil.epochMilliseconds, from.epochMilliseconds + A_DAY);
  const room = Math.max(0, Math.ceil((end - begin) / AN_HOUR / hours));
  return Math.min(perKilogramDay, room * perKilogram);
}
