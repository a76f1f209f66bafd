import type { Range } from './ranges.js';

/** Why a measure has no value. */
export type Unmeasured =
  | 'no beat shows this wave'
  | 'too noisy'
  | 'too few beats'
  | 'needs lead I and one of II, III and aVF'
  | 'the formula is for dogs'
  | 'no main direction';

/** The unit of a measure. */
export type Unit = 's' | 'mV' | 'share of R' | 'degrees';

/** Where a value lies; a value without a range is not judged. */
export type Verdict = 'below' | 'within' | 'above' | 'no range';

/** One thing measured over the beats of a strip. */
export interface Measurement {
  readonly unit: Unit;
  /** Median over the beats; null where it cannot be told. */
  readonly value: number | null;
  /** The middle half of the beats lies from here to here. */
  readonly middleHalf: { readonly from: number; readonly to: number } | null;
  /** Beats that were measured. */
  readonly count: number;
  /** Why there is no value; null where there is one. */
  readonly because: Unmeasured | null;
  /** Label of the lead it was read on; null for times, which hold for all leads. */
  readonly lead: string | null;
  readonly verdict: Verdict;
  /** For awake animals: anesthesia, drugs and position on the table move these values. */
  readonly range: Range | null;
}
