import { median } from '../filter/spread.js';
import { reason } from '../reason.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Chance lets some P fall at any distance; a tie would show in more than this share. Own choice. */
const TIED = 0.55;
/** An escape rhythm keeps time. Own choice. */
const STEADY = 0.08;
/** Atria at least this much faster than the ventricles; slower ones may be overtaken, not blocked. */
const FASTER = 1.25;

/** So much of a P halfway between those that are seen is one; noise and remnants of T leave less. */
const HALFWAY = 0.5;
/** One escape focus, and no runs of another between its beats. */
const ONE_FAMILY = 0.9;

/** Share of P distances that are whole cycles; by chance a third are. Own choice. */
const MARCH = 0.7;

/** P waves and QRS, each at a pace of its own. */
export const atrioventricularBlockThird: Rhythm = {
  names: ['third-degree atrioventricular block'],
  criteria: [
    'P waves march at their own rate, faster than the QRS and no faster than a sinus node',
    'QRS keep their own slow, regular time',
    'no distance from P to QRS returns',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { clock, beats, intervals, conduction, unevenness, halfwayAtria } = evidence;
    if (beats.length < 4 || clock.times.length < 6) return [];
    const rate = 60 / median(intervals);
    if (clock.regular < MARCH || !(unevenness <= STEADY)) return [];
    if (conduction.led > TIED) return [];
    // Where atria are about twice as fast, one of two P waves falls into QRS or T.
    const range = rateRange(evidence.patient);
    const twice = 2 * clock.rate;
    const isHalfSeen =
      clock.rate < FASTER * rate &&
      (evidence.shapes.families[0]?.members.length ?? 0) >= ONE_FAMILY * beats.length &&
      twice <= (range?.sinusCeiling ?? 0) &&
      halfwayAtria() >= HALFWAY;
    const atrial = isHalfSeen ? twice : clock.rate;
    if (atrial < FASTER * rate) return [];
    // Atria that flutter are not blocked by an ill node.
    if (atrial > (range?.sinusCeiling ?? Number.POSITIVE_INFINITY)) return [];
    return [
      finding(
        'third-degree atrioventricular block',
        evidence,
        0.95 * clock.regular * (1 - conduction.led / 2),
        [
          reason('atrial rate', { rate: atrial }),
          reason('ventricular rate', { rate }),
          reason('tied PR', { share: conduction.led, limit: TIED }),
          reason('half of RR within', { share: unevenness, limit: STEADY }),
        ],
      ),
    ];
  },
};
