import { type Reason, reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import { wideRhythm } from './evidence/wide-rhythm.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/**
 * Bends between beats that stand out more than this may be P waves that were not marked. Plain noise
 * gives 3; a choice of the method, not a clinical number.
 */
export const IDLE_ATRIA = 4.5;

/** A P stands so high in a single beat that noise over a third of it may hide it, mV (standard deviation). Own choice, not a clinical number. */
const HIDING = { dog: 0.0125, cat: 0.0075, rabbit: 0.0075, ferret: 0.0075 };

/** How far bends between beats stand out where atria at work would show and do not; null otherwise. */
export function idleAtria({ unmarkedAtria, patient }: Evidence): number | null {
  const between = unmarkedAtria();
  const isSeen = between !== null && between.noise <= HIDING[patient.species];
  return isSeen && between.standsOut <= IDLE_ATRIA ? between.standsOut : null;
}

/** The reason that between the wide beats no atria are at work. */
export const betweenBeats = (standsOut: number): Reason =>
  reason('between beats', { times: standsOut, limit: IDLE_ATRIA });

/** Wide beats from a ventricle at the slow pace of an escape. */
export const idioventricular: Rhythm = {
  names: ['idioventricular rhythm'],
  criteria: [
    'wide QRS nearly throughout, with no P wave at an equal distance',
    'slower than the sinus range: the ventricles beat for want of anything faster',
    'nothing between beats that may be a P wave, which would make it a third-degree block',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const wide = wideRhythm(evidence);
    if (!wide || !(wide.rate < wide.range.low)) return [];
    const standsOut = idleAtria(evidence);
    if (standsOut === null) return [];
    const because = [...wide.because, betweenBeats(standsOut)];
    return [
      finding('idioventricular rhythm', evidence, wide.confidence, because, {
        range: wide.range.used,
      }),
    ];
  },
};
