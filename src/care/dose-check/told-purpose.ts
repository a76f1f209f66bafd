import type { DrugClass } from '../../record/formulary-schema.js';
import { LOCAL_ROUTES, type Species } from '../../record/vocabulary.js';
import { type Said, warn } from './finding.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** Purposes of `content/`, the usual one first, whose sentence for the owner says what to watch for. */
interface Told {
  readonly by: readonly [string, ...string[]];
  readonly watch: string;
}

/**
 * What an owner must know of a class that reaches the whole body. Common practice: an NSAID is stopped at the first vomiting or
 * black stool, and in a rabbit, which cannot vomit, when it eats less; an opioid makes sleepy; an antibiotic is given to
 * its end.
 */
function toldOf(known: DrugClass | null, species: Species): Told | null {
  if (known === 'opioid')
    return { by: ['pain', 'calm rest'], watch: 'that an opioid makes sleepy' };
  if (known === 'antibiotic') {
    return { by: ['infection'], watch: 'that the course is given to its end' };
  }
  if (known !== 'NSAID') return null;
  const purpose = species === 'rabbit' ? 'pain and swelling, rabbit' : 'pain and swelling';
  return { by: [purpose], watch: `when an NSAID must be stopped in a ${species}` };
}

/** A medicine whose purpose would tell its owner to watch for the wrong things. */
export function toldOtherwise(
  known: DrugClass | null,
  species: Species,
  { drug, purpose, route }: PlannedMedicine,
): Said[] {
  const told = toldOf(known, species);
  if (!told || LOCAL_ROUTES.includes(route) || told.by.includes(purpose)) return [];
  return [
    warn(
      'a purpose that hides what to watch for',
      'for',
      `${drug} for "${purpose}", whose sentence for the owner does not say ${told.watch}`,
      `"for: ${told.by[0]}", which says it`,
    ),
  ];
}
