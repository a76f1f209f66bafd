import type { MarkedBeat } from '../../marked-beat.js';
import { type Reason, reason } from '../../reason.js';
import { intervalLimits } from '../interval-limits.js';
import { type RateRange, rateRange } from '../rate-ranges.js';

import type { Evidence } from './evidence.js';

/** A rhythm of wide beats; its rate in beats/min. */
export interface WideRhythm {
  readonly rate: number;
  readonly range: RateRange;
  readonly confidence: number;
  readonly because: readonly Reason[];
}

/** Six wide beats in a row are a rhythm of their own; fewer are a run within another. Own choice, not a clinical number. */
export const OWN_RHYTHM = 6;

/** Share of the beats that are wide. Own choice, not a clinical number. */
const NEARLY_ALL = 0.85;
/** P before more of the beats, at an equal distance, may lead to them. Own choice, not a clinical number. */
const TIED = 0.7;

/** Half of the intervals lie nearer than this to the middle one: of a fibrillating atrium they do not for long. Own choice, not a clinical number. */
const STEADY = 0.08;

const isOfVentricles = ({ kind }: MarkedBeat): boolean =>
  kind === 'ventricular' || kind === 'ventricular escape' || kind === 'ventricular premature';

/** A rhythm that ventricles keep themselves, or null: wide QRS nearly throughout, P not leading. */
export function wideRhythm(evidence: Evidence): WideRhythm | null {
  const { beats, shapes, patient, conduction, clock } = evidence;
  const limits = intervalLimits(patient);
  const range = rateRange(patient);
  if (!limits || !range || beats.length < OWN_RHYTHM) return null;
  const wide = beats.filter(isOfVentricles);
  const part = wide.length / beats.length;
  if (part < NEARLY_ALL) return null;
  const [main] = shapes.families;
  const width = main?.qrsDuration ?? main?.qrsAtLeast ?? Number.NaN;
  if (!(width > limits.wideQrs)) return null;
  // Without a time of its own it is no rhythm; the trace may be fibrillating.
  if (!(evidence.unevenness <= STEADY)) return null;
  // By the middle interval: a jolt that was counted among so few beats would move their mean.
  const { rate } = evidence;
  // P at an equal distance before most: a bundle branch block cannot be told apart.
  const tied = clock.times.length > TIED * beats.length && conduction.led > TIED;
  if (tied) return null;
  return {
    rate,
    range,
    confidence: part * 0.95,
    because: [
      reason('wide beats', { share: part, beats: beats.length, limit: NEARLY_ALL }),
      reason('wide QRS', { width, limit: limits.wideQrs }),
      reason('tied PR', { share: conduction.led, limit: TIED }),
      reason('rate beside the range', { rate, low: range.low, high: range.high }),
    ],
  };
}
