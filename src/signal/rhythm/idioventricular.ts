import { betweenBeats, idleAtria } from './evidence/idle-atria.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Wide beats from a ventricle at the slow pace of an escape. */
export const idioventricular: Rhythm = {
  names: ['idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'slower than the sinus range: the ventricles beat for want of anything faster',
    'at intervals that keep time, unless it is so slow that nothing but a dying heart beats so',
    'nothing between beats that may be a P wave, which would make it a third-degree block',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate < wide.range.low)) return [];
    const standsOut = idleAtria(evidence);
    if (standsOut === null) return [];
    const because = [...wide.because, betweenBeats(standsOut)];
    return [
      finding('idioventricular rhythm', evidence, wide.confidence, because, {
        range: wide.range.used,
      }),
    ];
  },
};
