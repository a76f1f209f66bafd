import { reason } from '../reason.js';
import { isLedByFasterAtria } from './atria-unseen.js';
import type { Evidence } from './evidence/evidence.js';
import { mainFamily, sharpness } from './evidence/main-family.js';
import { meanRate } from './evidence/own-rate.js';
import { SHOWN, shownSecondP } from './evidence/second-p.js';
import { isSteep } from './evidence/steep-qrs.js';
import { intervalLimits } from './interval-limits.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Half of the intervals lie nearer than this to the middle one. Own choice, not a clinical number. */
const STEADY = 0.04;

/** Steepest slope over height, 1/s: what rises more gently is of a ventricle that is crossed slowly, near as its width may be to a narrow QRS. Own choice, not a clinical number. */
const SHARP_ENOUGH = 70;

/** Narrow beats on end, that come faster than the sinus node fires or follow each second wave of atria that do. */
export const supraventricularTachycardia: Rhythm = {
  names: ['supraventricular tachycardia'],
  criteria: [
    'faster than a sinus node is taken to go (220 beats/min in a dog, 280 in a cat): the beats, or the atria, with a second P seen halfway between those that beats follow',
    'QRS of one shape, and narrow; not wide, where a second P is seen to each',
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
      main.share < 0.9 ||
      evidence.widths[main.index] === 'wide' ||
      !isSteep(shapes.families[main.index]) ||
      !(evidence.unevenness <= STEADY)
    ) {
      return [];
    }
    const isFast = rate > range.sinusCeiling;
    if (isFast && sharpness(shapes.families[main.index]) < SHARP_ENOUGH) return [];
    // A second P that touches QRS widens it to the eye.
    if (!(width <= (isFast ? limits.narrowQrs : limits.wideQrs))) return [];
    const shown = isFast ? Number.NaN : secondP(evidence, 2 * rate, range.sinusCeiling);
    if (!isFast && !(shown >= SHOWN)) return [];
    return [
      finding(
        'supraventricular tachycardia',
        evidence,
        0.9 * main.share,
        [
          ...(isFast
            ? [reason('rate', { rate, limit: range.sinusCeiling })]
            : [
                reason('atrial rate', { rate: 2 * rate }),
                reason('P halfway', { share: shown, limit: SHOWN }),
              ]),
          reason('half of RR within', { share: evidence.unevenness, limit: STEADY }),
          ...(width <= limits.narrowQrs
            ? [reason('narrow QRS', { width, limit: limits.narrowQrs })]
            : []),
        ],
        { range: range.used },
      ),
    ];
  },
};

/** How much of a second P shows, where the atria are then too fast for a sinus node and all else is as in a rhythm that P waves lead. */
const secondP = (evidence: Evidence, atrial: number, ceiling: number): number =>
  atrial > ceiling && isLedByFasterAtria(evidence) ? shownSecondP(evidence) : Number.NaN;
