import type { Species } from '../record/vocabulary.js';

/**
 * mL/kg of a fluid that are hardly given at one time: some three times a bolus for falling pressure, so that a slipped
 * digit lies beyond. From memory, unverified.
 */
export const MOST_AT_ONCE: Readonly<Record<Species, number>> = {
  dog: 40,
  cat: 30,
  rabbit: 40,
  ferret: 40,
};
