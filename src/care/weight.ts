import type { Species } from '../record/vocabulary.js';

/**
 * Body weights that are usual, in kg, from the smallest young that is operated on to the largest breeds. Wide on purpose: a
 * slipped decimal or pounds for kilograms shows, an unusual patient does not. Common practice.
 */
export const USUAL_WEIGHT: Readonly<Record<Species, readonly [least: number, most: number]>> = {
  dog: [0.3, 90],
  cat: [0.3, 12],
  rabbit: [0.3, 9],
  ferret: [0.2, 3],
};

/** Whether a weight in kg is one that a patient of the species usually has. */
export function isUsualWeight(species: Species, weight: number): boolean {
  const [least, most] = USUAL_WEIGHT[species];
  return weight >= least && weight <= most;
}
