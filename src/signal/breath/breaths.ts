import { medianOfFinite } from '../filter/order-statistics.js';
import type { Reason } from '../reason.js';
import type { Annotation, Channel } from '../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** What the times of the breaths were taken from, the surest first. */
export type BreathSource =
  | 'stated'
  | 'capnogram'
  | 'impedance'
  | 'pressure'
  | 'ventilator rate'
  | 'ecg';

/** When the patient breathed, as far as the record and its files tell. */
export interface Breaths {
  /** Seconds after the first sample, ascending; null where no single breath is known. */
  readonly times: readonly number[] | null;
  /** Ordinary time between two breaths, s; null where breathing is not known at all. */
  readonly period: number | null;
  /** Null where breathing is not known at all. */
  readonly source: BreathSource | null;
  /** True where `times` are starts of inspiration, false where only the pace and not the phase is known. */
  readonly fromInspiration: boolean;
  /** 0 (none) to 1; our own ranking of the sources, no published scale. */
  readonly confidence: number;
  /** What told it. */
  readonly because: Reason;
}

/** All that may tell of the breath. Leave out what there is not. */
export interface BreathEvidence {
  /** Starts of inspiration that the case record states, s after the first sample. */
  readonly stated?: readonly number[];
  /** Remarks of the waveform file. */
  readonly annotations?: readonly Annotation[];
  /** All channels of the waveform file; the breath channels among them are found by label and unit. */
  readonly channels?: readonly Channel[];
  /** Breaths/min that the record says the ventilator gave; null where the patient breathed by itself. */
  readonly ventilatorRate?: number | null;
  /** A lead in mV and its beats (R peaks, s). */
  readonly ecg?: { readonly lead: Channel; readonly beats: readonly { readonly time: number }[] };
}

/** Fewer starts than this give no period that could be checked against another. */
export const FEWEST_STARTS = 3;

/** Median time between breaths, s. */
export function usualPeriod(times: readonly number[]): number {
  return medianOfFinite(times.slice(1).map((time, i) => time - (times[i] as number)));
}
