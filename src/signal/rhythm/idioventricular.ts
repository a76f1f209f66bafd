import { betweenBeats, idleAtria } from './evidence/idle-atria.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/**
 * As sure as this where nothing narrow stands beside the wide beats: the sinus node may lead them through atria that high
 * potassium has silenced, and the strip looks the same. Common practice; the figure is an own choice.
 */
const ALONE = 0.6;

/** Wide beats from a ventricle at the slow pace of an escape. */
export const idioventricular: Rhythm = {
  names: ['idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'slower than the sinus range: the ventricles beat for want of anything faster',
    'at intervals that keep time, unless it is so slow that nothing but a dying heart beats so',
    'nothing between beats that may be a P wave, which would make it a third-degree block',
    'a sinus node that leads through atria silenced by high potassium looks the same',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate < wide.range.low)) return [];
    const standsOut = idleAtria(evidence);
    if (standsOut === null) return [];
    const because = [...wide.because, betweenBeats(standsOut)];
    const confidence = evidence.above.length > 0 ? wide.confidence : ALONE * wide.confidence;
    return [
      finding('idioventricular rhythm', evidence, confidence, because, { range: wide.range.used }),
    ];
  },
};
