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
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const early = evidence.beats.filter(isEarly);
    if (early.length === 0) return [];
    const confidence = early.reduce((sum, beat) => sum + beat.confidence, 0) / early.length;
    if (confidence < SURE && !sinusProof(evidence).proven) return [];
    const { length } = evidence.beats;
    return [
      finding(
        'supraventricular premature complexes',
        evidence,
        confidence,
        [reason('early narrow beats', { count: early.length, beats: length })],
        { beats: early.map(({ time }) => time), patterns: ['single'] },
      ),
    ];
  },
};
