import type { Age } from '../facts/case-facts.js';

/** The bands that stand for an age in public, the youngest first; where each ends is a choice of ours. Not a clinical number. */
export const AGE_BANDS = ['under 1', '1 to 3', '4 to 7', '8 to 11', '12 or more'] as const;
/** An age as it is told in public. */
export type AgeBand = (typeof AGE_BANDS)[number];

/** How many of a unit make a year, by the calendar: not a clinical number. */
const PER_YEAR: Readonly<Record<Age['unit'], number>> = { years: 1, months: 12, weeks: 365.25 / 7 };

/** Age in a band of several years, after the advice of 45 CFR 164.514(b)(2) to generalize ages that stand out. */
export function ageBand({ count, unit }: Age): AgeBand {
  const whole = Math.floor(count / PER_YEAR[unit]);
  if (whole < 1) return 'under 1';
  if (whole <= 3) return '1 to 3';
  if (whole <= 7) return '4 to 7';
  return whole <= 11 ? '8 to 11' : '12 or more';
}
