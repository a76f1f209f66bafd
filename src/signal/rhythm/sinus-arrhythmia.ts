import { reason } from '../reason.js';
import { finding, type Rhythm } from './rhythm.js';
import { isIrregular, regularity, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Irregular, and nothing tells whether the breath does it. */
export const sinusArrhythmia: Rhythm = {
  names: ['sinus arrhythmia'],
  criteria: [
    'P, PR and QRS as in sinus rhythm',
    'RR intervals vary by more than 10 %',
    'breaths were not recorded, or their link cannot be told',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range || !isIrregular(evidence) || evidence.breath !== 'cannot tell') return [];
    const { range, rate } = proof;
    if (rate < range.low || rate > range.high) return [];
    const because = [
      ...proof.met,
      regularity(evidence),
      reason('link with breath', { verdict: 'cannot tell' }),
    ];
    return [
      finding('sinus arrhythmia', evidence, proof.confidence, because, { range: range.used }),
    ];
  },
};
