import { reason } from '../reason.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';
import { hasOneShape, ventricularRuns } from './ventricular-premature.js';

/** Common practice: three ventricular beats in a row, faster than the sinus range, are a tachycardia. */
const IN_A_ROW = 3;

/** Early wide beats on end within another rhythm. */
export const ventricularTachycardiaRun: Rhythm = {
  names: ['run of ventricular tachycardia'],
  criteria: ['three or more ventricular beats in a row', 'faster than the sinus range'],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const range = rateRange(evidence.patient);
    if (!range || !hasOneShape(evidence)) return [];
    return ventricularRuns(evidence.beats)
      .filter(({ members }) => members.length >= IN_A_ROW && members.length < evidence.beats.length)
      .flatMap(({ members }) => {
        const from = members[0]!.time;
        const to = members.at(-1)!.time;
        const rate = (60 * (members.length - 1)) / (to - from);
        if (rate <= range.high) return [];
        return [
          finding(
            'run of ventricular tachycardia',
            { from, to },
            members.reduce((sum, beat) => sum + beat.confidence, 0) / members.length,
            [
              reason('in a row', { count: members.length, limit: IN_A_ROW }),
              reason('rate', { rate, limit: range.high }),
            ],
            { range: range.used, beats: members.map(({ time }) => time) },
          ),
        ];
      });
  },
};
