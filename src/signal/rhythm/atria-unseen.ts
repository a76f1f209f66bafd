import type { Reason, ReasonKey } from '../reason.js';
import { whyAtriaRest } from './atrial-standstill.js';
import type { Evidence } from './evidence/evidence.js';
import { mainFamily } from './evidence/main-family.js';
import { shownSecondP } from './evidence/second-p.js';
import { sinusProof } from './evidence/sinus-proof.js';
import { isSteep } from './evidence/steep-qrs.js';
import { intervalLimits, isNarrow } from './interval-limits.js';
import type { Possible } from './rhythm.js';

/** Half of the intervals lie nearer than this to the middle one. Own choice, not a clinical number. */
const STEADY = 0.06;
/** Fewer beats keep no time. Own choice, not a clinical number. */
const BEATS = 6;

/** What a sinus proof asks of the atria beside a P at an equal distance: only faster ones would fail it. */
const OF_FASTER_ATRIA: readonly ReasonKey[] = [
  'P between P',
  'P between P unseen',
  'rise of P',
  'short PR',
];
/** All that it asks of the atria. */
const OF_ATRIA: readonly ReasonKey[] = [
  ...OF_FASTER_ATRIA,
  'P before beats',
  'longest row without its P',
  'equal PR',
  'alike before the QRS',
  'beats alike before the QRS',
  'noise in the averaged P',
  'marked P without QRS',
];

/** What P waves halfway between others add to that where they are seen. */
const OF_SEEN_ATRIA: readonly ReasonKey[] = [
  ...OF_FASTER_ATRIA,
  'P without QRS',
  'marked P without QRS',
];

/** A P this near to the QRS widens it to the eye, though not to more than this. Otherwise narrow is asked. */
const OF_WIDTH: ReasonKey = 'narrow QRS';

const BLOCK = 'a second-degree atrioventricular block';
const FAST_ATRIA = 'atrial tachycardia or flutter of which each second wave is conducted';

/**
 * What a rhythm may be of which all is known but what the atria do: narrow, regular, of one shape.
 * Empty where more than that is in doubt. Source: common practice.
 */
export function whereAtriaAreUnseen(evidence: Evidence): Possible[] {
  const { range, rate, limits } = sinusProof(evidence);
  const { shapes, unevenness, beats } = evidence;
  const width = shapes.families[mainFamily(evidence).index]?.qrsDuration ?? Number.NaN;
  const unmet = unmetButWidth(evidence);
  const isOnly = (demands: readonly ReasonKey[]): boolean =>
    unmet.every(({ key }) => demands.includes(key));
  if (isOnly(OF_FASTER_ATRIA)) {
    const isSeen = unevenness <= STEADY && !Number.isNaN(shownSecondP(evidence));
    return isSeen ? [FAST_ATRIA, BLOCK] : ['a sinus rhythm', FAST_ATRIA];
  }
  if (isOnly(OF_SEEN_ATRIA) && unevenness <= STEADY) return [FAST_ATRIA, BLOCK];
  const isRegular = beats.length >= BEATS && unevenness <= STEADY;
  if (!isOnly(OF_ATRIA) || !isRegular || !isSteep(shapes.families[mainFamily(evidence).index])) {
    return [];
  }
  const isUnled = evidence.atrial.withP <= BY_CHANCE * evidence.atrial.asked;
  const isOfNarrow = limits !== null && isNarrow(width, limits);
  if (range && rate < range.low) {
    // Behind each QRS and before hardly any: atria stirred backwards.
    if (isUnled && isOfNarrow && evidence.pAfterQrs()) return ['a junctional rhythm'];
    // No P at all: a widened QRS is a ventricle's own, or potassium has both widened it and stilled the atria.
    if (!isOfNarrow && whyAtriaRest(evidence)) {
      return ['a junctional rhythm, the atria at rest or not', 'idioventricular rhythm'];
    }
    return [
      'a sinus rhythm',
      'atrioventricular block with an escape rhythm',
      'a junctional rhythm, the atria at rest or not',
    ];
  }
  if (isMostlyLed(evidence)) return ['a sinus rhythm', FAST_ATRIA];
  const ofSupraventricular: Possible[] = ['a sinus rhythm', FAST_ATRIA, 'a junctional rhythm'];
  if (!range || isOfNarrow || !isUnled) return ofSupraventricular;
  // Neither narrow nor wide, and no P leads: the ventricles may keep it themselves.
  const ofVentricles = rate > range.high ? 'ventricular tachycardia' : 'idioventricular rhythm';
  return [...ofSupraventricular, ofVentricles];
}

/** Of the beats so few may seem to follow a P. Own choice, not a clinical number. */
const BY_CHANCE = 0.1;

/** So many of the beats with their P, so many of those at an equal PR, so much alike. Own choice, not a clinical number. */
const LED = { withP: 0.5, equalPr: 0.85, coherence: 0.5 };

/** Whether P stands before most beats at an equal distance that is not short: a junctional rhythm has none there. */
function isMostlyLed({ atrial, patient }: Evidence): boolean {
  const shortest = intervalLimits(patient)?.shortPr ?? Number.POSITIVE_INFINITY;
  return (
    atrial.withP >= LED.withP * atrial.asked &&
    atrial.equalPr >= LED.equalPr &&
    atrial.coherence >= LED.coherence &&
    atrial.pr >= shortest
  );
}

/** What speaks against a rhythm that P waves lead; a QRS that is widened, and not wide, does not. */
function unmetButWidth(evidence: Evidence): readonly Reason[] {
  const { unmet, limits } = sinusProof(evidence);
  const width = evidence.shapes.families[mainFamily(evidence).index]?.qrsDuration ?? Number.NaN;
  const isWide = !limits || !(width <= limits.wideQrs);
  return isWide ? unmet : unmet.filter(({ key }) => key !== OF_WIDTH);
}

/** Whether nothing but what faster atria would do speaks against a rhythm that P waves lead. */
export function isLedByFasterAtria(evidence: Evidence): boolean {
  const unmet = unmetButWidth(evidence);
  return unmet.length > 0 && unmet.every(({ key }) => OF_SEEN_ATRIA.includes(key));
}

/** Whether a P may stand between those of the beats, though the beats keep time as they would not if it had come and gone. */
export function mayHideP(evidence: Evidence): boolean {
  const { unmet } = sinusProof(evidence);
  return evidence.unevenness <= STEADY && unmet.some(({ key }) => key === 'P between P');
}
