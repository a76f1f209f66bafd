import { type Reason, reason } from '../../reason.js';
import type { Evidence } from './evidence.js';

/**
 * Bends between beats that stand out more than this may be P waves that were not marked. Plain noise
 * gives 3; a choice of the method, not a clinical number.
 */
export const IDLE_ATRIA = 4.5;

/** A P stands so high in a single beat that noise over a third of it may hide it, mV (standard deviation). Own choice, not a clinical number. */
const HIDING = { dog: 0.0125, cat: 0.0075, rabbit: 0.0075, ferret: 0.0075 };

/**
 * How far bends between beats stand out where atria at work would show and do not; null otherwise.
 *
 * @param quiet the line moves by no more than this, mV (standard deviation), if less than what may hide a P
 */
export function idleAtria(
  { unmarkedAtria, patient }: Evidence,
  quiet: number = Number.POSITIVE_INFINITY,
): number | null {
  const between = unmarkedAtria();
  const isSeen = between !== null && between.noise <= Math.min(quiet, HIDING[patient.species]);
  return isSeen && between.standsOut <= IDLE_ATRIA ? between.standsOut : null;
}

/** The reason that between the wide beats no atria are at work. */
export const betweenBeats = (standsOut: number): Reason =>
  reason('between beats', { times: standsOut, limit: IDLE_ATRIA });
