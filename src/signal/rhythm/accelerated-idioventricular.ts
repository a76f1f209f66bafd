import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Wide beats from a ventricle at an even pace: faster than an escape, slower than a tachycardia. */
export const acceleratedIdioventricular: Rhythm = {
  names: ['accelerated idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'within the sinus range',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate >= wide.range.low && wide.rate <= wide.range.high)) return [];
    return [
      finding('accelerated idioventricular rhythm', evidence, wide.confidence, wide.because, {
        range: wide.range.used,
      }),
    ];
  },
};
