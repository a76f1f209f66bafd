import { idleAtria } from './evidence/idle-atria.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** An escape rhythm below blocked atria may be as fast as this beside the lower end of the range. Own choice, not a clinical number. */
export const ESCAPE = 1.2;

/** Wide beats from a ventricle at an even pace: faster than an escape, slower than a tachycardia. */
export const acceleratedIdioventricular: Rhythm = {
  names: ['accelerated idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'no wave as short as a P before each QRS that would lead to it',
    'within the sinus range',
    'near its lower end: nothing between beats that may be a P wave, which would make it a third-degree block',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate >= wide.range.low && wide.rate <= wide.range.high)) return [];
    const isNearEscape = wide.rate < ESCAPE * wide.range.low;
    if (isNearEscape && idleAtria(evidence) === null) return [];
    if (evidence.waveBeforeQrs()) return [];
    return [
      finding('accelerated idioventricular rhythm', evidence, wide.confidence, wide.because, {
        range: wide.range.used,
      }),
    ];
  },
};
