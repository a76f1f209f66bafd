import { reason } from '../reason.js';
import { isSteep, mainFamily, meanRate } from './evidence/sinus-proof.js';
import { intervalLimits } from './interval-limits.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Half of the intervals lie nearer than this to the middle one. Own choice, not a clinical number. */
const STEADY = 0.04;

/** Narrow beats on end, faster than the sinus node fires. */
export const supraventricularTachycardia: Rhythm = {
  names: ['supraventricular tachycardia'],
  criteria: [
    'faster than a sinus node is taken to go (220 beats/min in a dog, 280 in a cat)',
    'narrow QRS of one shape',
    'regular: half of the intervals within 4 % of the middle one',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const range = rateRange(evidence.patient);
    const limits = intervalLimits(evidence.patient);
    const { beats, shapes, above } = evidence;
    if (!range || !limits || beats.length < 8 || above.length < 0.9 * beats.length) return [];
    const main = mainFamily(evidence);
    const width = shapes.families[main.index]?.qrsDuration ?? Number.NaN;
    const rate = meanRate(evidence);
    if (
      !(rate > range.sinusCeiling) ||
      main.share < 0.9 ||
      !isSteep(shapes.families[main.index]) ||
      !(width <= limits.narrowQrs)
    )
      return [];
    if (!(evidence.unevenness <= STEADY)) return [];
    return [
      finding(
        'supraventricular tachycardia',
        evidence,
        0.9 * main.share,
        [
          reason('rate', { rate, limit: range.sinusCeiling }),
          reason('half of RR within', { share: evidence.unevenness, limit: STEADY }),
          reason('narrow QRS', { width, limit: limits.narrowQrs }),
        ],
        { range: range.used },
      ),
    ];
  },
};
