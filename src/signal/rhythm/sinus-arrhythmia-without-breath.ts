import { reason } from '../reason.js';
import { finding, type Rhythm } from './rhythm.js';
import { isIrregular, regularity, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Told only where breaths were recorded and the beats go their own way. */
export const sinusArrhythmiaWithoutBreath: Rhythm = {
  names: ['sinus arrhythmia not linked to breath'],
  criteria: [
    'P, PR and QRS as in sinus rhythm',
    'RR intervals vary by more than 10 %',
    'the intervals do not follow the breath',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range || !isIrregular(evidence) || evidence.breath !== 'not linked') return [];
    const { range, rate } = proof;
    if (rate < range.low || rate > range.high) return [];
    const because = [
      ...proof.met,
      regularity(evidence),
      reason('link with breath', { verdict: 'not linked' }),
    ];
    return [
      finding('sinus arrhythmia not linked to breath', evidence, proof.confidence, because, {
        range: range.used,
      }),
    ];
  },
};
