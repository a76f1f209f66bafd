import type { Species } from '../record/vocabulary.js';

/** Breaths per minute that a ventilator gives, from the largest to the smallest patient. From memory, unverified. */
const RATES: Readonly<Record<Species, readonly [least: number, most: number]>> = {
  dog: [4, 40],
  cat: [6, 40],
  rabbit: [10, 80],
  ferret: [10, 80],
};

/** A dog that is so heavy is given fewer breaths, kg and breaths per minute. From memory, unverified. */
const HEAVY = { from: 10, most: 30 };

/** Rates that a ventilator gives a patient of the species and weight (kg), breaths/min: a slipped digit lies outside. */
export function usualVentilation(
  species: Species,
  weight: number,
): readonly [least: number, most: number] {
  const [least, most] = RATES[species];
  return [least, species === 'dog' && weight >= HEAVY.from ? HEAVY.most : most];
}
