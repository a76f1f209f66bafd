import type { Species } from '../../record/vocabulary.js';
import { LASTING } from './asystole.js';
import type { Evidence } from './evidence/evidence.js';
import { mainFamily } from './evidence/main-family.js';
import { shareRecovering } from './evidence/recovery.js';
import type { Possible } from './rhythm.js';

/** Fewer waves keep no time. Own choice, not a clinical number. */
const WAVES = 3;
/** P is no higher, mV. Source: Small Animal Internal Medicine, 6th ed., Table 2.4; of rabbit and ferret from memory, unverified: as the cat's. */
const HIGHEST_P: Record<Species, number> = { dog: 0.4, cat: 0.2, rabbit: 0.2, ferret: 0.2 };
/** T reaches this share of its QRS; the swing that a filter leaves after a wave is less. From memory, unverified. */
const T_OF_QRS = 0.08;
/** Of the waves so few may be led by a P, or followed by a T, by chance. Own choice, not a clinical number. */
const BY_CHANCE = 0.3;

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

function areLowAndAlone(evidence: Evidence): boolean {
  const { beats, shapes, patient } = evidence;
  if (beats.length < WAVES) return false;
  const height = shapes.families[mainFamily(evidence).index]?.height ?? Number.NaN;
  if (!(height <= HIGHEST_P[patient.species])) return false;
  const led = beats.filter(({ p }) => p !== null).length / beats.length;
  return led <= BY_CHANCE && shareRecovering(beats, T_OF_QRS * height) <= BY_CHANCE;
}
