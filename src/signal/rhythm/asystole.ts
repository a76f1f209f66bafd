import { reason } from '../reason.js';
import { pulseReasons } from './pulse-reasons.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Shorter is a pause, s. From memory, unverified: three seconds is the usual figure in people. */
export const LASTING = 3;
/** Without more than this the line is idle, mV (rms): an electrode's own noise. From memory, unverified. */
export const IDLE = 0.03;

/** A flat line alone is never called asystole: a lead that came off looks the same. */
export const asystole: Rhythm = {
  names: ['asystole'],
  criteria: [
    'no QRS for 3 s or more and an idle line',
    'another channel shows that there is no pulse',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { pulse, beats, from, to } = evidence;
    if (beats.length > 0 || to - from < LASTING || pulse !== 'absent') return [];
    const strength = evidence.activity()?.strength ?? 0;
    if (strength > IDLE) return [];
    return [
      finding('asystole', evidence, 0.9, [
        reason('no QRS', { seconds: to - from, limit: LASTING }),
        reason('trace moves', { strength, limit: IDLE }),
        ...pulseReasons(evidence),
      ]),
    ];
  },
};
