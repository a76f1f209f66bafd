import type { DrugClass } from '../../record/formulary-schema.js';
import { type Said, warn } from './finding.js';
import type { PlannedMedicine } from './planned-medicine.js';

/** Purposes whose medicine works only where each dose follows the last, whatever an owner sees. Common practice. */
const WITHOUT_A_BREAK: readonly string[] = ['infection', 'heart rhythm', 'hormones', 'diabetes'];

/** A medicine as needed that an owner cannot judge the need of: an antibiotic is given to its end (common practice). */
export function neverAsNeeded(
  known: DrugClass | null,
  { drug, purpose, asNeededUntil }: PlannedMedicine,
): Said[] {
  if (asNeededUntil === null) return [];
  if (known !== 'antibiotic' && !WITHOUT_A_BREAK.includes(purpose)) return [];
  return [
    warn(
      'a medicine that is hardly given as needed',
      'for',
      `${drug} for "${purpose}", only as needed`,
      'doses with their hours, under "medicines", as it works only where none is left out (common practice)',
    ),
  ];
}
