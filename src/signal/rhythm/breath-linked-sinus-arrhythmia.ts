import { reason } from '../reason.js';
import { finding, type Rhythm } from './rhythm.js';
import { isIrregular, regularity, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Common in anesthetised dogs; P, QRS and T stay as they are. */
export const breathLinkedSinusArrhythmia: Rhythm = {
  names: ['breath-linked sinus arrhythmia'],
  criteria: [
    'P, PR and QRS as in sinus rhythm',
    'RR intervals vary by more than 10 %',
    'the intervals follow the breath, spontaneous or ventilated',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range || !isIrregular(evidence) || evidence.breath !== 'linked') return [];
    const { range, rate } = proof;
    if (rate < range.low || rate > range.high) return [];
    const because = [
      ...proof.met,
      regularity(evidence),
      reason('link with breath', { verdict: 'linked' }),
    ];
    return [
      finding('breath-linked sinus arrhythmia', evidence, proof.confidence, because, {
        range: range.used,
      }),
    ];
  },
};
