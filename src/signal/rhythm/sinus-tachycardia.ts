import { finding, type Rhythm, reason } from './rhythm.js';
import { sinusLed } from './sinus.js';
import { RANGE_TABLE } from './source.js';

export const sinusTachycardia: Rhythm = {
  names: ['sinus tachycardia'],
  criteria: ['all of sinus rhythm', 'rate above the range of the species'],
  source: RANGE_TABLE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range) return [];
    const { range, rate } = proof;
    if (rate <= range.high) return [];
    const because = [
      ...proof.met,
      reason(
        'mean rate',
        rate,
        'beats/min',
        `mean rate ${Math.round(rate)} beats/min (range from ${range.low} to ${range.high})`,
        range.high,
      ),
    ];
    return [
      finding('sinus tachycardia', evidence, proof.confidence, because, { range: range.used }),
    ];
  },
};
