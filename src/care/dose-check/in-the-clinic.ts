import type { Formulary } from '../../record/formulary-schema.js';
import type { Refusal } from '../../record/refusal.js';
import type { Species } from '../../record/vocabulary.js';
import { shown, spanned, within } from './amounts.js';
import { banned } from './banned.js';
import { type ClinicDose, rowInClinic } from './formulary-row.js';

/** What speaks against a dose that was given in the clinic. */
export interface ClinicFinding extends Omit<Refusal, 'mend'> {
  /** Index of the dose. */
  readonly dose: number;
  readonly field: 'drug' | 'dose';
}

/**
 * What speaks against doses that were given in the clinic. They were given, so nothing stops: a veterinarian is asked. A
 * dose without a figure is no finding, since few formularies have every drug of an anesthesia; `rowInClinic` names it.
 */
export function checkGiven(
  formulary: Formulary | null,
  species: Species,
  given: readonly ClinicDose[],
): ClinicFinding[] {
  return given.flatMap((one, dose): ClinicFinding[] => {
    const { drug, route, perKilogram } = one;
    const row = rowInClinic(formulary, one, species);
    if (row.kind === 'never') {
      return [{ dose, field: 'drug', ...banned(drug, species, row) }];
    }
    if (row.kind === 'not checked' || perKilogram === null || within(perKilogram, row.dose)) {
      return [];
    }
    return [
      {
        kind: 'a dose out of its range',
        dose,
        field: 'dose',
        found: `${shown(perKilogram)} mg/kg of ${drug}, ${route}`,
        expected: `${spanned(row.dose)} mg/kg, as the formulary says of the clinic`,
      },
    ];
  });
}
