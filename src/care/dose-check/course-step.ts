import type { Temporal } from 'temporal-polyfill';
import { sameDrug } from '../../record/formulary-schema.js';
import { above } from './amounts.js';
import { hoursApart } from './between-doses.js';
import type { Checked } from './formulary-row.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** What of a medicine tells where it stands in a course. */
type Step = Pick<PlannedMedicine, 'drug' | 'doses' | 'hours' | 'perKilogram' | 'asNeededUntil'>;

const firstOf = ({ doses }: Step) => doses[0] as Temporal.ZonedDateTime;
const lastOf = ({ doses }: Step) => doses.at(-1) as Temporal.ZonedDateTime;

/** Whether a medicine is over when another one of the same drug begins. What is given only as needed is no step of a course. */
const isOver = (before: Step, later: Step): boolean =>
  before.asNeededUntil === null &&
  later.asNeededUntil === null &&
  sameDrug(later.drug, before.drug) &&
  lastOf(before).epochMilliseconds < firstOf(later).epochMilliseconds;

/**
 * Whether a medicine is a later step of the same course as another one, such as of a dose that is tapered: the same drug,
 * begun when the step before is over, and no sooner after its last dose than the shorter of their two intervals.
 */
const followsOn = (later: Step, before: Step): boolean =>
  isOver(before, later) &&
  !above(Math.min(later.hours, before.hours), hoursApart(lastOf(before), firstOf(later)));

const perHour = (step: Step | undefined): number => (step?.perKilogram ?? 0) / (step?.hours ?? 1);

/** Where a medicine stands in its course. */
export interface CourseStep {
  /** From 1 on. */
  readonly number: number;
  readonly of: number;
  /** Whether less is given by the hour in the last step than in the first, so that the course comes to an end. */
  readonly tapers: boolean;
}

/** The place of each medicine in its course by the hours of its doses; null of one that is a course by itself, or overlaps. */
export function courseSteps(all: readonly Step[]): (CourseStep | null)[] {
  return all.map((medicine) => {
    const before = all.filter((other) => isOver(other, medicine)).length;
    const after = all.filter((other) => isOver(medicine, other)).length;
    const same = all
      .filter(({ drug }) => sameDrug(drug, medicine.drug))
      .toSorted((a, b) => firstOf(a).epochMilliseconds - firstOf(b).epochMilliseconds);
    if (same.length < 2 || before + after + 1 < same.length) return null;
    const [begin, end] = [same[0], same.at(-1)].map(perHour) as [number, number];
    return { number: before + 1, of: same.length, tapers: above(begin, end) };
  });
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
