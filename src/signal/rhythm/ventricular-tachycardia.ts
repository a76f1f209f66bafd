import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Wide beats from a ventricle, on end and fast. */
export const ventricularTachycardia: Rhythm = {
  names: ['ventricular tachycardia'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'faster than the sinus range',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate > wide.range.high)) return [];
    return [
      finding('ventricular tachycardia', evidence, wide.confidence, wide.because, {
        range: wide.range.used,
      }),
    ];
  },
};
