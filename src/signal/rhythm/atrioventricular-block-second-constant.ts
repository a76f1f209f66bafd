import { droppedBeats } from './evidence/dropped-beats.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

export const atrioventricularBlockSecondConstant: Rhythm = {
  names: ['second-degree atrioventricular block, constant PR'],
  criteria: [
    'some P waves are not followed by a QRS, one at a time',
    'PR of the others stays equal',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const dropped = droppedBeats(evidence);
    if (dropped?.form !== 'constant') return [];
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
