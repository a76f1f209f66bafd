import { pulseReasons } from './pulse-reasons.js';
import { finding, type Rhythm, reason } from './rhythm.js';
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
        reason('lasting', to - from, 's', `no QRS for ${(to - from).toFixed(1)} s`, LASTING),
        reason('strength', strength, 'mV', `moves by ${strength.toFixed(3)} mV (rms)`, IDLE),
        ...pulseReasons(evidence),
      ]),
    ];
  },
};
