import type { Species } from '../../../record/vocabulary.js';
import type { Evidence } from './evidence.js';
import { mainFamily } from './main-family.js';
import { shareRecovering } from './recovery.js';

/** Fewer waves keep no time. Own choice, not a clinical number. */
export const WAVES = 3;
/** P is no higher, mV. Source: Small Animal Internal Medicine, 6th ed., Table 2.4; of rabbit and ferret from memory, unverified: as the cat's. */
const HIGHEST_P: Record<Species, number> = { dog: 0.4, cat: 0.2, rabbit: 0.2, ferret: 0.2 };
/** T reaches this share of its QRS; the swing that a filter leaves after a wave is less. From memory, unverified. */
const T_OF_QRS = 0.08;
/** Of the waves so few may be led by a P, or followed by a T, by chance. Own choice, not a clinical number. */
const BY_CHANCE = 0.3;

/** Whether the waves that were counted may all be P: low, led by no P and followed by no T, which ventricles that were stirred leave. */
export function areLowAndAlone(evidence: Evidence): boolean {
  const { beats, shapes, patient } = evidence;
  if (beats.length < WAVES) return false;
  // Where none is from above the largest family is what was taken for a ventricle's.
  const main = Math.max(0, mainFamily(evidence).index);
  const height = shapes.families[main]?.height ?? Number.NaN;
  if (!(height <= HIGHEST_P[patient.species])) return false;
  const led = beats.filter(({ p }) => p !== null).length / beats.length;
  if (led > BY_CHANCE) return false;
  // Of a line that wanders some of T is marked each time, which is not there on average.
  const least = T_OF_QRS * height;
  return shareRecovering(beats, least) <= BY_CHANCE || !(evidence.recovery() >= least);
}
