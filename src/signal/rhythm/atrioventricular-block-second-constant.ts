import { droppedBeats } from './evidence/dropped-beats.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Of the intervals, those with a P of their own that nothing follows: nearly each. Own choice, not a clinical number. */
const EACH = 0.7;

/** A beat is dropped now and then, and the PR before it is as long as the others. */
export const atrioventricularBlockSecondConstant: Rhythm = {
  names: ['second-degree atrioventricular block, constant PR'],
  criteria: [
    'some P waves are not followed by a QRS, one at a time',
    'PR of the others stays equal',
    'where each second P is blocked: at no more than half-way from the upper end of the range to the fastest sinus rate',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const dropped = droppedBeats(evidence);
    if (dropped?.form !== 'constant') return [];
    // Of atria that run by themselves the ventricles follow each second wave without being ill.
    const range = rateRange(evidence.patient);
    const { blocked } = evidence.conduction;
    const isEachSecond = blocked >= EACH * (evidence.beats.length - 1);
    if (range && isEachSecond && evidence.clock.rate > (range.high + range.sinusCeiling) / 2) {
      return [];
    }
    return [
      finding(
        'second-degree atrioventricular block, constant PR',
        evidence,
        dropped.confidence,
        dropped.because,
      ),
    ];
  },
};
