import { type Reason, reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import { betweenBeats, IDLE_ATRIA } from './evidence/idle-atria.js';
import { mainFamily } from './evidence/main-family.js';
import { isSteep } from './evidence/steep-qrs.js';
import { intervalLimits, isNarrow } from './interval-limits.js';
import { rateRange } from './rate-ranges.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** An escape rhythm keeps time. Own choice, not a clinical number. */
const STEADY = 0.06;
/** P waves a beat that noise may feign. Own choice, not a clinical number. */
const STRAY = 0.15;

/** Of the beats; the others are premature, or jolts of the leads. Own choice, not a clinical number. */
const FROM_ABOVE = 0.8;

/** No P at all, and slow even beats. */
export const atrialStandstill: Rhythm = {
  names: ['atrial standstill'],
  criteria: [
    'no P wave anywhere, before the QRS, after it or between',
    'slow and regular',
    'narrow QRS of one shape',
    'a junctional rhythm whose P hides in the QRS looks the same',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const limits = intervalLimits(evidence.patient);
    const main = mainFamily(evidence);
    const family = evidence.shapes.families[main.index];
    const isOwn =
      limits !== null && family !== undefined && isNarrow(family.qrsDuration ?? Number.NaN, limits);
    if (!isOwn || evidence.widths[main.index] === 'wide') return [];
    const because = whyAtriaRest(evidence);
    const range = rateRange(evidence.patient);
    if (!because || !range) return [];
    return [finding('atrial standstill', evidence, 0.7, because, { range: range.used })];
  },
};

/** What tells that the atria rest beside slow even beats of one steep shape, however wide; null where it is not told. */
export function whyAtriaRest(evidence: Evidence): Reason[] | null {
  const { beats, rate, unevenness, clock, above, beforeQrs, patient, shapes } = evidence;
  const range = rateRange(patient);
  const main = mainFamily(evidence);
  if (main.share < 0.9 || !isSteep(shapes.families[main.index])) return null;
  if (!range || beats.length < 6 || above.length < FROM_ABOVE * beats.length) return null;
  if (!(rate < range.low) || !(unevenness <= STEADY)) return null;
  const lowest = patient.species === 'cat' ? 0.03 : 0.05;
  if (clock.times.length > STRAY * beats.length) return null;
  const standsOut = evidence.unmarkedAtria()?.standsOut ?? null;
  if (standsOut === null || standsOut > IDLE_ATRIA) return null;
  if (evidence.pAfterQrs()) return null;
  if (beforeQrs.noise > lowest || beforeQrs.height > lowest) return null;
  return [
    reason('P seen', { count: clock.times.length, beats: beats.length }),
    reason('rate', { rate, limit: range.low }),
    reason('half of RR within', { share: unevenness, limit: STEADY }),
    reason('trace before the QRS', { height: beforeQrs.height, limit: lowest }),
    betweenBeats(standsOut),
  ];
}
