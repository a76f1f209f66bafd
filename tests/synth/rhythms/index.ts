import type { BeatPlan } from '../beat-plan.js';
import { atrialFibrillation } from './atrial-fibrillation.js';
import { atrialStandstill } from './atrial-standstill.js';
import { avBlockFirst, avBlockFixed, avBlockLengthening, avBlockThird } from './av-block.js';
import { breathLinkedSinus } from './breath-linked-sinus.js';
import type { Setting } from './setting.js';
import { sinus, sinusBradycardia, sinusTachycardia, tallT } from './sinus.js';
import { sinusPause } from './sinus-pause.js';
import { supraventricularPremature, supraventricularTachycardia } from './supraventricular.js';
import {
  ventricularBigeminy,
  ventricularPairs,
  ventricularRuns,
  ventricularSingles,
  ventricularTrigeminy,
} from './ventricular-premature.js';
import {
  asystole,
  idioventricular,
  ventricularFibrillation,
  ventricularTachycardia,
} from './ventricular-rhythm.js';

export type { Setting } from './setting.js';

/** Every rhythm that can be planned, by name. */
export const RHYTHMS = {
  sinus: (setting: Setting): BeatPlan => sinus(setting),
  'sinus-bradycardia': sinusBradycardia,
  'sinus-tachycardia': sinusTachycardia,
  'breath-linked-sinus': breathLinkedSinus,
  'tall-t-sinus': tallT,
  'sinus-pause': sinusPause,
  'supraventricular-premature': supraventricularPremature,
  'supraventricular-tachycardia': supraventricularTachycardia,
  'atrial-fibrillation': atrialFibrillation,
  'atrial-standstill': atrialStandstill,
  'av-block-first': avBlockFirst,
  'av-block-second-lengthening': avBlockLengthening,
  'av-block-second-fixed': avBlockFixed,
  'av-block-third': avBlockThird,
  'ventricular-singles': (setting: Setting): BeatPlan => ventricularSingles(setting),
  'ventricular-pairs': ventricularPairs,
  'ventricular-bigeminy': ventricularBigeminy,
  'ventricular-trigeminy': ventricularTrigeminy,
  'ventricular-runs': ventricularRuns,
  'ventricular-tachycardia': ventricularTachycardia,
  idioventricular,
  'ventricular-fibrillation': ventricularFibrillation,
  asystole,
} as const satisfies Readonly<Record<string, (setting: Setting) => BeatPlan>>;

export type RhythmName = keyof typeof RHYTHMS;
