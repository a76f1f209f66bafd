import type { Approval } from '../record/approval-schema.js';

/** What a veterinarian has approved of a case, and whether that is what its sheet says now. */
export interface Standing {
  readonly approved: boolean;
  /** The first one first; none for a case that never was approved. */
  readonly approvals: readonly Approval[];
}

/** The standing of a sheet that nobody has approved: a draft. */
export const NEVER_APPROVED: Standing = { approved: false, approvals: [] };

/** @param digest of what the sheet says now */
export const standingOf = (approvals: readonly Approval[], digest: string): Standing => ({
  approved: approvals.at(-1)?.digest === digest,
  approvals,
});

/** The approved sheet that an owner may hold from before: the one to compare with. */
export const earlierSheet = ({ approved, approvals }: Standing): Approval | null =>
  approvals.at(approved ? -2 : -1) ?? null;

/**
 * A number that grows from each state of a sheet to the next: draft 0, first approval 1, its changed draft 2, second
 * approval 3 ...
 */
export const sequenceOf = ({ approved, approvals }: Standing): number =>
  2 * approvals.length - (approved ? 1 : 0);
