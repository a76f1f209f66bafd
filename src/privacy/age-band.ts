import { type CountedAge, yearsOf } from '../units/age.js';

/** The bands that stand for an age in public, the youngest first; where each ends is a choice of ours. Not a clinical number. */
export const AGE_BANDS = ['under 1', '1 to 3', '4 to 7', '8 to 11', '12 or more'] as const;
/** An age as it is told in public. */
export type AgeBand = (typeof AGE_BANDS)[number];

/** Age in a band of several years, after the advice of 45 CFR 164.514(b)(2) to generalize ages that stand out. */
export function ageBand(age: CountedAge): AgeBand {
  const whole = Math.floor(yearsOf(age));
  if (whole < 1) return 'under 1';
  if (whole <= 3) return '1 to 3';
  if (whole <= 7) return '4 to 7';
  return whole <= 11 ? '8 to 11' : '12 or more';
}
