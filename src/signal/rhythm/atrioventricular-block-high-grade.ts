import { droppedBeats } from './evidence/dropped-beats.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Two P waves or more in a row without their QRS. */
export const atrioventricularBlockHighGrade: Rhythm = {
  names: ['second-degree atrioventricular block, high-grade'],
  criteria: [
    'two or more P waves in a row are not followed by a QRS',
    'the QRS that come stand at an equal PR',
    'also where none comes for 3 s or more between beats that P leads (`standstillBetween`)',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const dropped = droppedBeats(evidence);
    if (dropped?.form !== 'high-grade') return [];
    return [
      finding(
        'second-degree atrioventricular block, high-grade',
        evidence,
        dropped.confidence,
        dropped.because,
      ),
    ];
  },
};
