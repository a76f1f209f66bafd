import { seconds } from '../../units/brands.js';
import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { sinusProof } from './evidence/sinus-proof.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

const isEarly = ({ kind }: MarkedBeat): boolean => kind === 'supraventricular premature';

/** Less sure than this they are told beside a proven sinus rhythm alone: beside missed beats any interval may be short. Own choice, not a clinical number. */
const SURE = 0.6;

/** Early beats from above the ventricles within another rhythm. */
export const supraventricularPremature: Rhythm = {
  names: ['supraventricular premature complexes'],
  criteria: [
    'early: under 0.85 of the interval usual around it',
    'narrow QRS of the usual shape',
    'P wave of another height or hidden, or an otherwise regular rhythm',
    'or, within a proven sinus rhythm, a wave like a P on the T before a longer interval and after no other beat, that no QRS follows',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { proven } = sinusProof(evidence);
    const early = evidence.beats.filter(isEarly);
    const blocked = proven ? evidence.blockedEarlyP().times : [];
    const count = early.length + blocked.length;
    if (count === 0) return [];
    const sure = early.reduce((sum, beat) => sum + beat.confidence, SURE * blocked.length);
    const confidence = sure / count;
    if (confidence < SURE && !proven) return [];
    const { length } = evidence.beats;
    const times = [...early.map(({ time }) => time), ...blocked.map((time) => seconds(time))];
    return [
      finding(
        'supraventricular premature complexes',
        evidence,
        confidence,
        [
          ...(early.length > 0
            ? [reason('early narrow beats', { count: early.length, beats: length })]
            : []),
          ...(blocked.length > 0
            ? [reason('early P without QRS', { count: blocked.length, beats: length })]
            : []),
        ],
        { beats: times.sort((a, b) => a - b), patterns: ['single'] },
      ),
    ];
  },
};
