import { type Reason, reason } from '../../reason.js';
import { lengthens } from './conduction.js';
import type { Evidence } from './evidence.js';
import { mainFamily } from './main-family.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** In which way beats are dropped after their P. */
export interface DroppedBeats {
  readonly form: 'constant' | 'lengthening' | 'high-grade' | 'untold';
  readonly because: readonly Reason[];
  readonly confidence: number;
}

/** Beats with a T that may be an early beat; fewer are noise. Own choice. */
const LATE_T = 0.3;
/** Gaps with a wave that may be one. Own choice. */
const OTHER_WAVE = 0.3;
/** Share of P distances that are whole cycles; by chance a third are. Own choice. */
export const MARCH = 0.7;
/** At least so many P waves without QRS; one alone may be noise. Own choice. */
const LEAST = 2;
/** Share of the blocked P waves that must march with the others; by chance a sixth do. Own choice. */
const IN_STEP = 0.7;
/** Blocked P waves must look alike in the trace; noise scatters around 0. Own choice. */
const ALIKE = 0.4;
/** QRS tied to a P: over half; where P and QRS go their own ways about a sixth meet by chance. */
const LED = 0.6;

/** Beats at one PR after a drop: nearly each, with room for a P that noise hides. Own choice. */
const SAME = 0.7;

/** P waves in a gap, marked, or as many as the atria have time for, where two or more are not followed: between one and two. Own choice. */
const PER_GAP = 1.5;
const HIDDEN = 1.7;

/** Own choice; a dropped beat makes it 1.5 to 2. */
const LONGER = 1.3;

/** Whether P waves are not followed where an early beat may have found them, one that was not counted. */
export const hideWave = ({ conduction }: Evidence): boolean =>
  conduction.blocked >= LEAST && conduction.waveInGaps() > OTHER_WAVE;

/** Second-degree block of any form, or null. P waves march on, some are not followed, others are. */
export function droppedBeats(evidence: Evidence): DroppedBeats | null {
  const { conduction, clock, beats, patient, above } = evidence;
  if (conduction.blocked < LEAST || beats.length < 4) return null;
  // A P that an early beat finds unanswered is not blocked.
  if (evidence.lateTallT > LATE_T) return null;
  if (hideWave(evidence)) return null;
  // Atria that do not keep time, as noise does not, are no proof.
  if (clock.regular < MARCH) return null;
  if (conduction.inStep < IN_STEP) return null;
  if (conduction.blocked >= 4 && conduction.blockedCoherence < ALIKE) return null;
  // A P that is not followed leaves a longer interval, unless every interval holds one.
  if (conduction.longerBy < LONGER) return null;
  if (conduction.sameAfterDrop < SAME) return null;
  const { shortenedAfterDrop } = conduction;
  const isLengthening = shortenedAfterDrop.length >= 2 && lengthens(conduction, patient) >= 0.7;
  if (!isLengthening && conduction.led < LED) return null;
  if (above.length < 0.5 * beats.length) return null;
  // One of two may hide in T: the atria march on behind it.
  const byClock = conduction.gapLength / clock.cycle - 1;
  const isHighGrade =
    (conduction.mostInARow >= 2 && conduction.blocked / conduction.gapsWithBlocked >= PER_GAP) ||
    byClock >= HIDDEN;
  const form = isLengthening
    ? 'lengthening'
    : isHighGrade
      ? 'high-grade'
      : shortenedAfterDrop.length >= 2
        ? 'constant'
        : 'untold';
  return {
    form,
    because: [
      reason('dropped P', { count: conduction.blocked, limit: LEAST }),
      reason('most in a row', { count: conduction.mostInARow }),
      reason('atrial rate and beats', { rate: clock.rate, beats: beats.length }),
      reason('PR of the conducted', { pr: conduction.pr, share: conduction.led }),
      reason('PR shorter after the drop', { share: lengthens(conduction, patient) }),
    ],
    confidence: Math.min(
      0.95,
      clock.regular *
        Math.min(1, 0.5 + conduction.blocked / 8) *
        (mainFamily(evidence).share > 0.8 ? 1 : 0.7),
    ),
  };
}
