import type { DrugClass } from '../../record/formulary-schema.js';
import type { Species } from '../../record/vocabulary.js';
import { type Said, warn } from './finding.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** An NSAID that food keeps from being taken up. From memory, unverified. */
const BETTER_EMPTY: readonly string[] = ['robenacoxib'];

/** A species whose stomach is never empty in health. Common practice. */
const ALWAYS_EATS: readonly Species[] = ['rabbit'];

/** An NSAID that is swallowed, and whose owner is not told to give it with food, which spares the stomach (common practice). */
export function withoutFood(
  known: DrugClass | null,
  species: Species,
  { drug, route, food }: PlannedMedicine,
): Said[] {
  const name = drug.toLowerCase();
  if (known !== 'NSAID' || route !== 'by mouth' || food === 'with food') return [];
  if (ALWAYS_EATS.includes(species) || BETTER_EMPTY.some((one) => name.includes(one))) return [];
  return [
    warn(
      'an NSAID without food',
      'food',
      food === 'either' ? `${drug} by mouth, with or without food` : `${drug} by mouth, ${food}`,
      '"food: with food", as an NSAID on an empty stomach harms it more often (common practice)',
    ),
  ];
}
