import { droppedBeats } from './evidence/dropped-beats.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** The PR grows from beat to beat until a beat is dropped. */
export const atrioventricularBlockSecondLengthening: Rhythm = {
  names: ['second-degree atrioventricular block, lengthening PR'],
  criteria: [
    'some P waves are not followed by a QRS',
    'PR lengthens before and is short again after',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const dropped = droppedBeats(evidence);
    if (dropped?.form !== 'lengthening') return [];
    return [
      finding(
        'second-degree atrioventricular block, lengthening PR',
        evidence,
        dropped.confidence,
        dropped.because,
      ),
    ];
  },
};
