import { finding, type Rhythm, reason } from './rhythm.js';
import { sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

export const sinusBradycardia: Rhythm = {
  names: ['sinus bradycardia'],
  criteria: ['all of sinus rhythm', 'rate below the range of the species'],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range) return [];
    const { range, rate } = proof;
    if (rate >= range.low) return [];
    const because = [
      ...proof.met,
      reason(
        'mean rate',
        rate,
        'beats/min',
        `mean rate ${Math.round(rate)} beats/min (range from ${range.low} to ${range.high})`,
        range.low,
      ),
    ];
    return [
      finding('sinus bradycardia', evidence, proof.confidence, because, { range: range.used }),
    ];
  },
};
