import { intervalLimits } from '../interval-limits.js';
import { type RateRange, rateRange } from '../rate-ranges.js';
import { percent, type Reason, reason, s3 } from '../rhythm.js';
import type { Evidence } from './evidence.js';
import { meanRate } from './sinus-proof.js';

export interface WideRhythm {
  readonly rate: number;
  readonly range: RateRange;
  readonly confidence: number;
  readonly because: readonly Reason[];
}

/** Six wide beats in a row are a rhythm of their own; fewer are a run within another. Own choice, not a clinical number. */
export const OWN_RHYTHM = 6;

/** Half of the intervals lie nearer than this to the middle one. Own choice, not a clinical number. */
const STEADY = 0.12;

/** A rhythm that ventricles keep themselves, or null: wide QRS nearly throughout, P not leading. */
export function wideRhythm(evidence: Evidence): WideRhythm | null {
  const { beats, shapes, patient, conduction, clock } = evidence;
  const limits = intervalLimits(patient);
  const range = rateRange(patient);
  if (!limits || !range || beats.length < OWN_RHYTHM) return null;
  const wide = beats.filter(
    ({ kind }) =>
      kind === 'ventricular' || kind === 'ventricular escape' || kind === 'ventricular premature',
  );
  const part = wide.length / beats.length;
  if (part < 0.85) return null;
  const width = shapes.families[0]?.qrsDuration ?? Number.NaN;
  if (!(width > limits.wideQrs)) return null;
  // Without a time of its own it is no rhythm; the trace may be fibrillating.
  if (!(evidence.unevenness <= STEADY)) return null;
  const rate = meanRate(evidence);
  // P at an equal distance before most: a bundle branch block cannot be told apart.
  const tied = clock.times.length > 0.7 * beats.length && conduction.led > 0.7;
  if (tied) return null;
  return {
    rate,
    range,
    confidence: part * 0.95,
    because: [
      reason('wide beats', part, '', `${percent(part)} of ${beats.length} QRS wide`, 0.85),
      reason(
        'QRS duration',
        width,
        's',
        `QRS ${s3(width)} s (wide over ${limits.wideQrs} s)`,
        limits.wideQrs,
      ),
      reason('tied', conduction.led, '', `equal PR in ${percent(conduction.led)} of beats`, 0.7),
      reason(
        'rate',
        rate,
        'beats/min',
        `rate ${Math.round(rate)} beats/min (sinus range ${range.low} to ${range.high})`,
      ),
    ],
  };
}
