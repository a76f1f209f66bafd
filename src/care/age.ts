import type { Species } from '../record/vocabulary.js';

/** Years that hardly any patient of the species outlives: beyond lies a slip of the pen. From memory, unverified. */
export const OLDEST: Readonly<Record<Species, number>> = {
  dog: 25,
  cat: 30,
  rabbit: 16,
  ferret: 14,
};

/** Units of an age in a year. Not a clinical number. */
const IN_A_YEAR = { years: 1, months: 12, weeks: 52 } as const;

/** Whether a patient of the species can be so old. */
export const isUsualAge = (
  species: Species,
  { count, unit }: { readonly count: number; readonly unit: keyof typeof IN_A_YEAR },
): boolean => count / IN_A_YEAR[unit] <= OLDEST[species];
