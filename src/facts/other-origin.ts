import type { BeatKind } from '../signal/marked-beat.js';
import type { RulingName } from '../signal/rhythm/rhythm.js';
import type { StripAnalysis } from '../signal/strip-analysis.js';

/** Beats of the sinus node, and those of which nothing is claimed. */
const NOT_TOLD_APART: readonly BeatKind[] = ['sinus', 'unclassified'];

/** Rhythms whose beats may fill the heart too little to be felt, whatever kind each beat bears. Common practice. */
const MAY_LACK_A_PULSE: readonly RulingName[] = [
  'supraventricular tachycardia',
  'atrial fibrillation',
  'idioventricular rhythm',
  'accelerated idioventricular rhythm',
  'ventricular tachycardia',
  'third-degree atrioventricular block',
];

/**
 * Whether a strip has beats, or a rhythm, that the sinus node does not lead, so that the count of electrical beats may be
 * higher than the pulse. Source: common practice.
 */
export const hasOtherBeats = ({ beats, rhythms }: StripAnalysis): boolean =>
  beats.some(({ kind }) => !NOT_TOLD_APART.includes(kind)) ||
  rhythms.some(({ name }) => (MAY_LACK_A_PULSE as readonly string[]).includes(name));
