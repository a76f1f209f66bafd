import { acceleratedIdioventricular } from './accelerated-idioventricular.js';
import { asystole } from './asystole.js';
import { atrialFibrillation } from './atrial-fibrillation.js';
import { atrialStandstill } from './atrial-standstill.js';
import { atrioventricularBlockFirst } from './atrioventricular-block-first.js';
import { atrioventricularBlockHighGrade } from './atrioventricular-block-high-grade.js';
import { atrioventricularBlockSecondConstant } from './atrioventricular-block-second-constant.js';
import { atrioventricularBlockSecondLengthening } from './atrioventricular-block-second-lengthening.js';
import { atrioventricularBlockThird } from './atrioventricular-block-third.js';
import { breathLinkedSinusArrhythmia } from './breath-linked-sinus-arrhythmia.js';
import { idioventricular } from './idioventricular.js';
import type { Rhythm } from './rhythm.js';
import { sinus } from './sinus.js';
import { sinusArrhythmia } from './sinus-arrhythmia.js';
import { sinusArrhythmiaWithoutBreath } from './sinus-arrhythmia-without-breath.js';
import { sinusBradycardia } from './sinus-bradycardia.js';
import { sinusPause } from './sinus-pause.js';
import { sinusTachycardia } from './sinus-tachycardia.js';
import { supraventricularPremature } from './supraventricular-premature.js';
import { supraventricularTachycardia } from './supraventricular-tachycardia.js';
import { ventricularFibrillation } from './ventricular-fibrillation.js';
import { ventricularFusion } from './ventricular-fusion.js';
import { ventricularPremature } from './ventricular-premature.js';
import { ventricularTachycardia } from './ventricular-tachycardia.js';
import { ventricularTachycardiaRun } from './ventricular-tachycardia-run.js';
import { wideOnTime } from './wide-on-time.js';

/** Rhythms that rule a stretch; the first that is found rules: the more dangerous before the less. */
export const RULES: readonly Rhythm[] = [
  ventricularFibrillation,
  asystole,
  ventricularTachycardia,
  atrioventricularBlockThird,
  atrioventricularBlockHighGrade,
  acceleratedIdioventricular,
  idioventricular,
  atrioventricularBlockSecondConstant,
  atrioventricularBlockSecondLengthening,
  atrialFibrillation,
  atrialStandstill,
  supraventricularTachycardia,
  atrioventricularBlockFirst,
  sinusTachycardia,
  sinusBradycardia,
  breathLinkedSinusArrhythmia,
  sinusArrhythmiaWithoutBreath,
  sinusArrhythmia,
  sinus,
];

/** What can happen within a ruling rhythm. */
export const WITHIN: readonly Rhythm[] = [
  ventricularTachycardiaRun,
  ventricularPremature,
  ventricularFusion,
  wideOnTime,
  supraventricularPremature,
  sinusPause,
];
