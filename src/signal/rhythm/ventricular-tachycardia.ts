import { reason } from '../reason.js';
import { isUndulating, UNDULATING } from './evidence/activity.js';
import type { Evidence } from './evidence/evidence.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { pulseReasons } from './pulse-reasons.js';
import { type Finding, finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Read from the trace, as fibrillation is: what was counted as beats in it need be none. */
export function wavesAlone(evidence: Evidence): Finding[] {
  const { pulse, from, to } = evidence;
  if (to - from < LASTING_WAVES || pulse === 'present') return [];
  const activity = evidence.activity();
  if (!activity || !isUndulating(activity)) return [];
  const { strength, concentration, peakedness, strokes, repeats } = activity;
  return [
    finding('ventricular tachycardia', evidence, WAVES_ALONE * concentration, [
      reason('trace moves', { strength, limit: UNDULATING.strength }),
      reason('power of fibrillation', { share: concentration, limit: UNDULATING.concentration }),
      reason('peakedness', { peakedness, limit: UNDULATING.peakedness }),
      reason('peakedness of the slope', { peakedness: strokes, limit: UNDULATING.strokes }),
      reason('like itself later', { correlation: repeats, limit: 1 }),
      ...pulseReasons(evidence),
    ]),
  ];
}

/** Shorter may be a lead that is shaken, s: evenly, as no heart that fibrillates moves it. Own choice, not a clinical number. */
const LASTING_WAVES = 5;
/** How sure it is at most: a lead that is shaken evenly may look so. Own choice, not a clinical number. */
const WAVES_ALONE = 0.8;

/** Wide beats from a ventricle, on end and fast. */
export const ventricularTachycardia: Rhythm = {
  names: ['ventricular tachycardia'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'faster than the sinus range',
    'or waves alone for 5 s or more, without rest and without a QRS, that come back too evenly for fibrillation (torsade de pointes, ventricular flutter), and no other channel shows a pulse that goes on as before',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const waves = wavesAlone(evidence);
    if (waves.length > 0) return waves;
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate > wide.range.high)) return [];
    return [
      finding('ventricular tachycardia', evidence, wide.confidence, wide.because, {
        range: wide.range.used,
      }),
    ];
  },
};
