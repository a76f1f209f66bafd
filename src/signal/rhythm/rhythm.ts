import type { Seconds } from '../../units/brands.js';
import type { RangeUsed, Reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import type { Source } from './source.js';

/** Rhythms that can rule a stretch of strip. */
export const RULING = [
  'sinus rhythm',
  'sinus bradycardia',
  'sinus tachycardia',
  'breath-linked sinus arrhythmia',
  'sinus arrhythmia not linked to breath',
  'sinus arrhythmia',
  'first-degree atrioventricular block',
  'second-degree atrioventricular block, constant PR',
  'second-degree atrioventricular block, lengthening PR',
  'second-degree atrioventricular block, high-grade',
  'third-degree atrioventricular block',
  'supraventricular tachycardia',
  'atrial fibrillation',
  'idioventricular rhythm',
  'accelerated idioventricular rhythm',
  'ventricular tachycardia',
  'ventricular fibrillation',
  'asystole',
  'atrial standstill',
] as const;
/** A rhythm that rules a stretch of a strip. */
export type RulingName = (typeof RULING)[number];

/** What can happen within a ruling rhythm. */
export type WithinName =
  | 'sinus pause'
  | 'supraventricular premature complexes'
  | 'ventricular premature complexes'
  | 'run of ventricular tachycardia'
  | 'ventricular fusion complexes'
  | 'wide complexes on time';

/** Only these are a sinus rhythm; none of them is ever given without positive proof. */
export const NORMAL: readonly RulingName[] = [
  'sinus rhythm',
  'sinus bradycardia',
  'sinus tachycardia',
  'breath-linked sinus arrhythmia',
  'sinus arrhythmia not linked to breath',
  'sinus arrhythmia',
];

/** What a stretch that bears no name may be; a name of its own where no ruling name fits. */
export const POSSIBLE = [
  'a sinus rhythm',
  'atrial tachycardia or flutter of which each second wave is conducted',
  'a second-degree atrioventricular block',
  'a junctional rhythm',
  'a junctional rhythm, the atria at rest or not',
  'atrioventricular block with an escape rhythm',
  'third-degree atrioventricular block',
  'idioventricular rhythm',
  'ventricular tachycardia',
  'asystole',
  'P waves that no QRS follows',
  'a lead that came off',
  'electrical activity without a pulse',
  'T or P waves counted as beats',
  'premature beats on the T wave',
] as const;
/** What a stretch may be that has no one name. */
export type Possible = (typeof POSSIBLE)[number];

/** How premature beats stand among the others. */
export type Pattern = 'single' | 'pairs' | 'every second' | 'every third' | 'runs';

/** A rhythm, or an event within one: where it was found, why, and how sure that is. */
export interface Finding {
  readonly name: RulingName | WithinName;
  readonly from: Seconds;
  readonly to: Seconds;
  /** 0 to 1. */
  readonly confidence: number;
  readonly because: readonly Reason[];
  /** The range that was used: species, size, age, awake or anesthetised; null where none was needed. */
  readonly range: RangeUsed | null;
  /** How premature beats come; empty for other findings. */
  readonly patterns: readonly Pattern[];
  /** R times of the beats that the finding speaks of, s, and times of early P waves without QRS; empty where it is the whole stretch. */
  readonly beats: readonly Seconds[];
}

/** One entry of the handbook. */
export interface Rhythm {
  readonly names: readonly (RulingName | WithinName)[];
  readonly criteria: readonly string[];
  readonly source: Source;
  readonly find: (evidence: Evidence) => Finding[];
}

/** A finding over the whole evidence. */
export function finding(
  name: Finding['name'],
  { from, to }: Pick<Evidence, 'from' | 'to'>,
  confidence: number,
  because: readonly Reason[],
  more: Partial<Pick<Finding, 'range' | 'patterns' | 'beats'>> = {},
): Finding {
  return {
    name,
    from,
    to,
    confidence: Math.max(0, Math.min(1, confidence)),
    because,
    range: null,
    patterns: [],
    beats: [],
    ...more,
  };
}
