import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

export const idioventricular: Rhythm = {
  names: ['idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'slower than the sinus range: the ventricles beat for want of anything faster',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate < wide.range.low)) return [];
    return [
      finding('idioventricular rhythm', evidence, wide.confidence, wide.because, {
        range: wide.range.used,
      }),
    ];
  },
};
