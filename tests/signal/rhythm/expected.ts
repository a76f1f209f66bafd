import type { RulingName, WithinName } from '../../../src/signal/rhythm/rhythm.js';
import type { RhythmName } from '../../synth/rhythms/index.js';

/** What each planned rhythm should be called: its ruling name, then what should be found within. */
export const EXPECTED: Readonly<
  Record<RhythmName, readonly [RulingName | 'cannot be told', WithinName?]>
> = {
  sinus: ['sinus rhythm'],
  'sinus-bradycardia': ['sinus bradycardia'],
  'sinus-tachycardia': ['sinus tachycardia'],
  'breath-linked-sinus': ['breath-linked sinus arrhythmia'],
  'tall-t-sinus': ['sinus rhythm'],
  'sinus-pause': ['sinus rhythm', 'sinus pause'],
  'supraventricular-premature': ['sinus rhythm', 'supraventricular premature complexes'],
  'supraventricular-tachycardia': ['supraventricular tachycardia'],
  'atrial-fibrillation': ['atrial fibrillation'],
  'atrial-standstill': ['atrial standstill'],
  'av-block-first': ['first-degree atrioventricular block'],
  'av-block-second-lengthening': ['second-degree atrioventricular block, lengthening PR'],
  'av-block-second-fixed': ['second-degree atrioventricular block, constant PR'],
  'av-block-third': ['third-degree atrioventricular block'],
  'ventricular-singles': ['sinus rhythm', 'ventricular premature complexes'],
  'ventricular-pairs': ['sinus rhythm', 'ventricular premature complexes'],
  'ventricular-bigeminy': ['sinus rhythm', 'ventricular premature complexes'],
  'ventricular-trigeminy': ['sinus rhythm', 'ventricular premature complexes'],
  'ventricular-runs': ['sinus rhythm', 'ventricular premature complexes'],
  'ventricular-tachycardia': ['ventricular tachycardia'],
  idioventricular: ['idioventricular rhythm'],
  'ventricular-fibrillation': ['ventricular fibrillation'],
  // No other channel speaks, so a lead that came off is as likely.
  asystole: ['cannot be told'],
};
