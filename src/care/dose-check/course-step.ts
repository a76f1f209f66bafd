import type { Temporal } from 'temporal-polyfill';
import { sameDrug } from '../../record/formulary-schema.js';
import { above } from './amounts.js';
import { hoursApart } from './between-doses.js';
import type { Checked } from './formulary-row.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** What of a medicine tells where it stands in a course. */
type Step = Pick<PlannedMedicine, 'drug' | 'doses' | 'hours'>;

/**
 * Whether a medicine is a later step of the same course as another one, such as of a dose that is tapered: the same drug,
 * begun when the step before is over, and no sooner after its last dose than the shorter of their two intervals.
 */
export function followsOn(later: Step, before: Step): boolean {
  if (!sameDrug(later.drug, before.drug)) return false;
  const last = before.doses.at(-1) as Temporal.ZonedDateTime;
  const first = later.doses[0] as Temporal.ZonedDateTime;
  if (last.epochMilliseconds >= first.epochMilliseconds) return false;
  return !above(Math.min(later.hours, before.hours), hoursApart(last, first));
}

/** Whether two medicines are steps of one course, whichever is listed first. */
export const ofOneCourse = (one: Step, other: Step): boolean =>
  followsOn(one, other) || followsOn(other, one);

/**
 * Hours from dose to dose to which a taper may be thinned out: every second or third day. From memory, unverified.
 */
const THINNEST_TAPER = 72;

/**
 * What a medicine is checked against: a later step of a course may be given less often than is usual, as that is how a dose
 * is tapered.
 * @param before the medicines that are listed before it
 */
export function rowForStep(
  row: Checked,
  medicine: PlannedMedicine,
  before: readonly PlannedMedicine[],
): Checked {
  if (row.kind !== 'checked' || !before.some((one) => followsOn(medicine, one))) return row;
  const [least, most] = row.hours;
  return { ...row, hours: [least, Math.max(most, THINNEST_TAPER)] };
}
