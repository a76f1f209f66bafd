import type { Species } from '../record/vocabulary.js';
import type { Kilogram, Millivolt, Seconds } from '../units/brands.js';

/** Whose heart it is; ranges depend on it. */
export interface Patient {
  readonly species: Species;
  readonly weight: Kilogram;
  /** Null where the record does not say. */
  readonly ageYears: number | null;
  readonly anesthetised: boolean;
}

/** A P, QRS or T: seconds after the first sample of the strip, onset <= peak <= end. */
export interface Wave {
  readonly onset: Seconds;
  readonly peak: Seconds;
  readonly end: Seconds;
  /** Of the peak against the baseline before the beat. */
  readonly height: Millivolt;
  /** 0 (a guess) to 1 (beyond doubt). */
  readonly confidence: number;
}

/** Where a beat began, as far as timing, P waves and shape tell. */
export type BeatKind =
  | 'sinus'
  | 'supraventricular premature'
  | 'ventricular premature'
  | 'ventricular'
  | 'junctional escape'
  | 'ventricular escape'
  | 'fusion'
  | 'aberrant'
  | 'unclassified';

/** A beat with the waves that were found; a wave that is absent or cannot be seen is null. */
export interface BeatWaves {
  /** R peak. */
  readonly time: Seconds;
  readonly p: Wave | null;
  readonly qrs: Wave | null;
  readonly t: Wave | null;
}

/** A beat with its waves. */
export interface MarkedBeat extends BeatWaves {
  readonly kind: BeatKind;
  /** Of the kind, 0 to 1. */
  readonly confidence: number;
}
