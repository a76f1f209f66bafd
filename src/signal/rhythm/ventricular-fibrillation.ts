import { reason } from '../reason.js';
import {
  type Activity,
  areAlone,
  isRestless,
  isUndulating,
  RESTLESS,
} from './evidence/activity.js';
import type { Evidence } from './evidence/evidence.js';
import { pulseReasons } from './pulse-reasons.js';
import { type Finding, finding, type Rhythm } from './rhythm.js';
import { FROM_MEMORY } from './source.js';

/** Shorter may be a movement of the leads, s. Own choice, not a clinical number. */
export const RESTLESS_FOR = 4;

/**
 * Over the whole stretch more is asked than of each 2 s: a fast wide rhythm under noise may pass for
 * restless now and then, but it goes on repeating. Own choice, not a clinical number.
 */
const THROUGHOUT = { concentration: 0.8, repeats: 0.8 };
/** Where no stroke stands out among the waves there is no wide rhythm either. Own choice, not a clinical number. */
const WITHOUT_STROKES = 0.85;

/** Waves with strokes as sharp as this may hold a QRS; one shape of so many beats is one. Own choice, not a clinical number. */
const QRS_AMONG = { strokes: 4.6, oneShape: 0.85, beats: 8 };

/** Whether strokes of one shape stand among the waves, as wide beats of fibrillating atria do: fibrillating ventricles have none that returns. */
function hasOneStroke({ beats, shapes }: Evidence, { strokes }: Activity): boolean {
  if (strokes <= QRS_AMONG.strokes) return false;
  const same = shapes.families[0]?.members.length ?? 0;
  return beats.length >= QRS_AMONG.beats && same >= QRS_AMONG.oneShape * beats.length;
}

/** Read from the trace alone: what was counted as beats in it are none. */
export const ventricularFibrillation: Rhythm = {
  names: ['ventricular fibrillation'],
  criteria: [
    'restless waves without a QRS that stands out or returns, for 4 s or more',
    'most of their power at 2.5 to 10 Hz, or to 14 Hz where they are waves alone',
    'no stroke of one shape among them',
    'no other channel shows a pulse',
  ],
  source: FROM_MEMORY,
  find: (evidence) => {
    return evidence.to - evidence.from < RESTLESS_FOR ? [] : fibrillating(evidence);
  },
};

/** The same of a stretch of any length: for one beside another that fibrillates. */
export function fibrillating(evidence: Evidence): Finding[] {
  const { pulse } = evidence;
  const activity = pulse === 'present' ? null : evidence.activity();
  if (!activity || !isRestless(activity)) return [];
  if (hasOneStroke(evidence, activity)) return [];
  const { strength, peakedness, repeats } = activity;
  const isSwift = activity.concentration < THROUGHOUT.concentration && areAlone(activity);
  const concentration = isSwift ? activity.swiftness : activity.concentration;
  const most = isUndulating(activity) ? WITHOUT_STROKES : THROUGHOUT.repeats;
  if (concentration < THROUGHOUT.concentration || repeats > most) return [];
  const sure = concentration * (pulse === 'absent' ? 1 : 0.85);
  return [
    finding('ventricular fibrillation', evidence, sure, [
      reason('trace moves', { strength, limit: RESTLESS.strength }),
      reason(isSwift ? 'power of swift fibrillation' : 'power of fibrillation', {
        share: concentration,
        limit: THROUGHOUT.concentration,
      }),
      reason('peakedness', { peakedness, limit: RESTLESS.peakedness }),
      reason('like itself later', { correlation: repeats, limit: most }),
      ...pulseReasons(evidence),
    ]),
  ];
}
