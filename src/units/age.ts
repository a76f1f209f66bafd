/** How many of each unit make a year. As an age is told: common practice, not the calendar's 52.18 weeks. */
const IN_A_YEAR = { years: 1, months: 12, weeks: 52 } as const;

/** An age in the unit in which it is told. */
export interface CountedAge {
  readonly count: number;
  readonly unit: keyof typeof IN_A_YEAR;
}

/** An age in years. */
export const yearsOf = ({ count, unit }: CountedAge): number => count / IN_A_YEAR[unit];
