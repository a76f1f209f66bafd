import { type Formulary, sameDrug } from '../../record/formulary-schema.js';
import { drugClass } from '../drug-class.js';
import { rowOf } from './formulary-row.js';

/** Why two different medicines should not meet; null where their classes are no reason, or not known. */
export function clash(formulary: Formulary | null, one: string, other: string): string | null {
  if (shared(formulary, one, other).length > 0) return null;
  const classes = [drugClass(formulary, one), drugClass(formulary, other)];
  if (classes.every((found) => found === 'NSAID')) return 'one NSAID at a time';
  return classes.includes('NSAID') && classes.includes('corticosteroid')
    ? 'no NSAID together with a corticosteroid'
    : null;
}

/**
 * The same for two medicines of one home, where nobody watches: two opioids make sleepier than either, and one can take from
 * what the other does (common practice). In the clinic they follow one another every day.
 */
export function clashAtHome(
  formulary: Formulary | null,
  one: string,
  other: string,
): string | null {
  const opioids = [one, other].every((drug) => drugClass(formulary, drug) === 'opioid');
  return opioids && shared(formulary, one, other).length === 0
    ? 'one opioid at a time at home'
    : null;
}

/** Ingredients that two medicines share; a medicine without a row is its own ingredient. */
export function shared(formulary: Formulary | null, one: string, other: string): string[] {
  const others = ingredientsOf(formulary, other);
  return ingredientsOf(formulary, one).filter((ingredient) =>
    others.some((found) => sameDrug(found, ingredient)),
  );
}

const ingredientsOf = (formulary: Formulary | null, drug: string): readonly string[] =>
  rowOf(formulary, drug)?.ingredients ?? [drug];
