import {
  type Formulary,
  type FormularyDrug,
  type Span,
  sameDrug,
} from '../../record/formulary-schema.js';
import type { ClinicRoute, Species } from '../../record/vocabulary.js';
import { meantDrug } from '../drug-class.js';

/** What a dose in the clinic is looked up by; mg per kg, null where the record gives a volume without its strength. */
export interface ClinicDose {
  readonly drug: string;
  readonly route: ClinicRoute;
  readonly perKilogram: number | null;
}

/** The row that a medicine was checked against, or why there is none. */
export type Checked =
  | {
      readonly kind: 'checked';
      readonly dose: Span;
      /** mg per kg in 24 hours. */
      readonly mostInDay: number;
      readonly hours: Span;
      readonly source: string;
      readonly notes: string | null;
    }
  | Never
  | NotChecked;

/** A ban of the formulary. */
export interface Never {
  readonly kind: 'never';
  readonly why: string;
}

/** Nothing to check against. */
export interface NotChecked {
  readonly kind: 'not checked';
  /** `the formulary has no row for carprofen` */
  readonly lack: string;
  /** The drug that the name may be a slip for. */
  readonly meant: string | null;
}

/** The figure that a dose in the clinic was checked against, or why there is none. */
export type CheckedInClinic =
  | { readonly kind: 'checked'; readonly dose: Span; readonly source: string }
  | Never
  | NotChecked;

/** Why nothing was checked, as a sentence. */
export const whyNotChecked = ({ lack, meant }: NotChecked): string =>
  `Not checked: ${lack}${meant === null ? '.' : `; did you mean "${meant}"?`}`;

type SpeciesRow = NonNullable<FormularyDrug['species'][Species]>;

/** What the formulary says of a drug for a species. */
function speciesRow(
  formulary: Formulary | null,
  drug: string,
  species: Species,
):
  | { readonly row: SpeciesRow; readonly source: string; readonly notes: string | null }
  | Never
  | NotChecked {
  const without = (lack: string): NotChecked => ({
    kind: 'not checked',
    lack,
    meant: meantDrug(formulary, drug),
  });
  if (!formulary) return without('the clinic has no formulary.yaml');
  const found = rowOf(formulary, drug);
  if (!found) return without(`the formulary has no row for ${drug}`);
  const row = found.species[species];
  if (!row) return without(`the formulary says nothing of ${drug} for a ${species}`);
  if (row.never !== undefined) return { kind: 'never', why: row.never };
  return { row, source: found.source, notes: found.notes ?? null };
}

/** The row of a medicine for a species. */
export function rowFor(formulary: Formulary | null, drug: string, species: Species): Checked {
  const found = speciesRow(formulary, drug, species);
  if ('kind' in found) return found;
  const { row, source, notes } = found;
  if (!row.dose) {
    const lack = `the formulary has ${drug} for a ${species} in the clinic only`;
    return { kind: 'not checked', lack, meant: null };
  }
  return {
    kind: 'checked',
    dose: row.dose,
    mostInDay: (row['most a day'] as Span)[1],
    hours: row.every as Span,
    source,
    notes,
  };
}

/** The figure for a dose in the clinic. What is given at home says nothing of it, nor one route of another. */
export function rowInClinic(
  formulary: Formulary | null,
  { drug, route, perKilogram }: ClinicDose,
  species: Species,
): CheckedInClinic {
  const found = speciesRow(formulary, drug, species);
  if ('kind' in found) return found;
  const dose = found.row['in the clinic']?.[route];
  const lack =
    perKilogram === null
      ? `the record gives ${drug} as a volume without its strength`
      : `the formulary has no ${route} dose of ${drug} for a ${species} in the clinic`;
  return dose && perKilogram !== null
    ? { kind: 'checked', dose, source: found.source }
    : { kind: 'not checked', lack, meant: null };
}

/** What the formulary says of a medicine, by any name that means it. */
export const rowOf = (formulary: Formulary | null, drug: string): FormularyDrug | undefined =>
  formulary?.drugs.find((row) => sameDrug(row.drug, drug));
