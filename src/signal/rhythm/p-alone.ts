import { LASTING } from './asystole.js';
import type { Evidence } from './evidence/evidence.js';
import { areLowAndAlone, WAVES } from './evidence/low-and-alone.js';
import type { Possible } from './rhythm.js';

/**
 * What a stretch may be whose waves may all be P: low, led by no P and followed by no T, or marked as P with no QRS
 * among them. Ventricles at rest beside atria that go on look so, and so does a QRS that a lead shows too low. Empty for
 * all other stretches. Source: common practice.
 */
export function whereMayBePAlone(evidence: Evidence): Possible[] {
  const { beats, clock, from, to } = evidence;
  const isWithoutBeats = beats.length === 0 && to - from >= LASTING && clock.times.length >= WAVES;
  if (isWithoutBeats) return [P_ALONE];
  return areLowAndAlone(evidence) ? [P_ALONE, 'a junctional rhythm, the atria at rest or not'] : [];
}

const P_ALONE = 'P waves that no QRS follows';
