import type { ProblemKind } from '../../record/problem-kind.js';
import type { Refusal } from '../../record/refusal.js';

/** What speaks against a plan; `mend` of what is only asked about is to be followed by a comma and the way to answer it. */
export interface Finding extends Refusal {
  /** Index of the medicine. */
  readonly medicine: number;
  /** `stop` where nothing may be printed, `warn` where a veterinarian may have meant it. */
  readonly weight: 'stop' | 'warn';
  readonly field: 'drug' | 'for' | 'give' | 'route' | 'food' | 'rhythm';
}

/** What is said of one medicine. */
export type Said = Omit<Finding, 'medicine'>;

/** Where the record answers what is said of a medicine. */
export const IN_MEDICINE = 'in this medicine';

/** A veterinarian may have meant it. */
export const warn = (
  kind: ProblemKind,
  field: Finding['field'],
  found: string,
  expected: string,
): Said => ({
  kind,
  weight: 'warn',
  field,
  found,
  expected,
  mend: 'Mend it',
});
