import type { Species } from '../record/vocabulary.js';
import { type CountedAge, yearsOf } from '../units/age.js';

/** Years that hardly any patient of the species outlives: beyond lies a slip of the pen. From memory, unverified. */
export const OLDEST: Readonly<Record<Species, number>> = {
  dog: 25,
  cat: 30,
  rabbit: 16,
  ferret: 14,
};

/** Whether a patient of the species can be so old. */
export const isUsualAge = (species: Species, age: CountedAge): boolean =>
  yearsOf(age) <= OLDEST[species];
