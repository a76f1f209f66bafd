import { reason } from '../reason.js';
import { sinusProof } from './evidence/sinus-proof.js';
import { finding, type Rhythm } from './rhythm.js';
import { hasLongPr } from './sinus.js';
import { RANGE_TABLE } from './source.js';

/** Each P leads to its QRS, but late. */
export const atrioventricularBlockFirst: Rhythm = {
  names: ['first-degree atrioventricular block'],
  criteria: ['every P is followed by a QRS', 'PR over 0.13 s in a dog, over 0.09 s in a cat'],
  source: RANGE_TABLE,
  find: (evidence) => {
    const proof = sinusProof(evidence);
    if (!proof.proven || !proof.limits || !hasLongPr(evidence, proof)) return [];
    const { pr } = evidence.atrial;
    const because = [...proof.met, reason('long PR', { pr, limit: proof.limits.longPr })];
    return [
      finding('first-degree atrioventricular block', evidence, proof.confidence, because, {
        range: proof.limits.used,
      }),
    ];
  },
};
