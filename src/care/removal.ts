import { Temporal } from 'temporal-polyfill';
import type { Clinic } from '../record/clinic-schema.js';
import { openDays } from './open-days.js';

/** The days on which stitches or staples can be taken out, `YYYY-MM-DD`. */
export interface RemovalVisit {
  /** First and last day of the window. */
  readonly from: string;
  readonly to: string;
  /** First open day in the window, or the day that the veterinarian set; null where the clinic is closed throughout. */
  readonly proposed: string | null;
  /** Whether the veterinarian set that day. */
  readonly set: boolean;
  /** Other open days in the window on which the wound is still guarded. */
  readonly others: readonly string[];
  /** First open day after a window in which none is; null where one is, or none follows soon. */
  readonly next: string | null;
}

/** Days after a closed window in which another day is looked for. Common practice: later is safer than too early. */
export const REACH_AFTER = 28;

/**
 * When stitches can come out, within a window of days after surgery.
 * @param set the day that the veterinarian set, which then is the one proposed
 * @param guardedUntil the last day of a collar: on a later one stitches would have been within reach of the teeth; null for none
 */
export function removalVisit(
  clinic: Clinic,
  surgery: string,
  { from, to }: { readonly from: number; readonly to: number },
  set: string | null = null,
  guardedUntil: string | null = null,
): RemovalVisit {
  const day = Temporal.PlainDate.from(surgery);
  const open = openDays(clinic, surgery, from, to);
  const proposed = set ?? open[0] ?? null;
  const after = proposed === null ? openDays(clinic, surgery, to + 1, to + REACH_AFTER) : [];
  return {
    from: day.add({ days: from }).toString(),
    to: day.add({ days: to }).toString(),
    proposed,
    set: set !== null,
    others: open.filter(
      (other) => other !== proposed && (guardedUntil === null || other <= guardedUntil),
    ),
    next: after[0] ?? null,
  };
}
