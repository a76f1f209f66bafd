import { share } from '../../filter/spread.js';
import { type Reason, reason } from '../../reason.js';
import { type IntervalLimits, intervalLimits } from '../interval-limits.js';
import { type RateRange, rateRange } from '../rate-ranges.js';
import { atLeast, atMost, type Demand } from './demand.js';
import type { Evidence } from './evidence.js';
import { leadsWideQrs } from './leads-wide-qrs.js';
import { mainFamily } from './main-family.js';
import { ownRate, shortRate } from './own-rate.js';
import { STEEP } from './steep-qrs.js';
import { ofHiddenP } from './unfollowed-p.js';

/** Whether the sinus node leads: every demand met, or those that are not. */
export interface SinusProof {
  readonly proven: boolean;
  readonly met: readonly Reason[];
  readonly unmet: readonly Reason[];
  readonly limits: IntervalLimits | null;
  readonly range: RateRange | null;
  /** Beats/min over the whole stretch. */
  readonly rate: number;
  /** 0 to 1: how far above the demands the weakest shares lie. */
  readonly confidence: number;
}

/**
 * Demands on a sinus rhythm. All are own choices on the side of caution: a stretch that fails one is
 * not named (not a clinical number), which costs a reading; a dangerous rhythm that passed would cost an animal.
 */
const DEMANDS = {
  /** Chance alone gives so many equal PR in less than one stretch in ten thousand; no fewer and no more than these. */
  chance: 1e-4,
  beats: { least: 5, most: 8 },
  /** "Nearly every", with room for waves missed in noise. */
  withP: 0.85,
  equalPr: 0.85,
  rowWithout: 2,
  /** A P onset is misread by so much, s. */
  misreadPr: 0.01,
  /** Equal waves in noise of their own size reach 0.5; unrelated stretches scatter around 0. */
  coherence: 0.5,
  coherentShare: 0.75,
  /** P against the noise that is left in its average. */
  pOverNoise: 4,
  /** mV: twice the upper ends of Table 2.4, 0.4 and 0.2; what is higher is another wave. */
  tallestP: { dog: 0.8, cat: 0.4, rabbit: 0.4, ferret: 0.4 },
  oneFamily: 0.9,
  /** Every third beat may be the heart's own, not fewer. */
  ventricular: 0.67,
  /** From half of its height, s: a P of 0.05 s rises in half of that, a wave of fluttering atria in far more; noise and coarse sampling blur both. */
  riseOfP: { dog: 0.018, cat: 0.0165, rabbit: 0.0165, ferret: 0.0165 },
  /** Or a line at rest before it, s, where twice the rate, in beats/min, is under what atria flutter at (300; common practice). */
  restBeforeP: 0.04,
  slowestFlutter: 250,
  /** At a faster pace also as a share of half a cycle, which one wave of the saw would fill: a sine rests for 0.16 of it. */
  restOfHalf: 0.25,
  /** A QRS less steep than most (`STEEP`): mV/s, how many times as steep as its P, and so many of the beats have a T. */
  leastSteep: 10,
  steeperThanP: 3,
  followedByT: 0.9,
  /** Waves marked as P without QRS, a beat: the second degree has one at every fifth beat or more. */
  confirmedLoneP: 0.05,
  markedLoneP: 0.2,
  /** Of the beats with a T that may be an early beat: every third, or noise. */
  lateTallT: 0.3,
  /** A missed QRS would be as tall as the others. */
  missedQrs: 0.4,
} as const;

const cache = new WeakMap<Evidence, SinusProof>();

/** Whether a stretch proves that the sinus node leads, with every number that speaks for it or against it. */
export function sinusProof(evidence: Evidence): SinusProof {
  const known = cache.get(evidence);
  if (known) return known;
  const proof = weigh(evidence);
  cache.set(evidence, proof);
  return proof;
}

function weigh(evidence: Evidence): SinusProof {
  const limits = intervalLimits(evidence.patient);
  const range = rateRange(evidence.patient);
  const main = mainFamily(evidence);
  const demands = [
    ...ofP(evidence, limits),
    ...ofQrs(evidence, main, limits, range),
    ofHiddenP(evidence, range),
    ...betweenThem(evidence),
    ofRate(evidence, range),
  ];
  const { atrial } = evidence;
  const withP = atrial.asked > 0 ? atrial.withP / atrial.asked : 0;
  const slack = Math.min(withP, atrial.equalPr, main.share);
  const unmet = demands.filter(({ passes }) => !passes).map(({ why }) => why);
  return {
    proven: unmet.length === 0,
    met: demands.filter(({ passes }) => passes).map(({ why }) => why),
    unmet,
    limits,
    range,
    rate: ownRate(evidence),
    confidence: Math.min(0.99, slack * Math.min(1, 0.5 + atrial.coherence / 1.6)),
  };
}

function ofP(evidence: Evidence, limits: IntervalLimits | null): Demand[] {
  const { atrial, patient, riseOfP, restBeforeP } = evidence;
  const { asked, withP, pr, equalPr, coherence, coherentShare, height, noise } = atrial;
  const marked = atLeast(
    asked > 0 ? withP / asked : 0,
    DEMANDS.withP,
    reason('P before beats', { withP, asked, limit: DEMANDS.withP }),
  );
  // Without P the other measures say nothing.
  if (withP === 0) return [marked];
  const beats = atrial.longestRowWithout;
  const tallest = DEMANDS.tallestP[patient.species];
  const slowest = DEMANDS.riseOfP[patient.species];
  return [
    marked,
    atMost(
      beats,
      DEMANDS.rowWithout,
      reason('longest row without its P', { beats, limit: DEMANDS.rowWithout }),
    ),
    atLeast(
      equalPr,
      DEMANDS.equalPr,
      reason('equal PR', { pr, share: equalPr, limit: DEMANDS.equalPr }),
    ),
    // A wave so near to the QRS need not lead to it, and QRS covers what would tell it from others.
    ...(limits
      ? [
          atLeast(
            pr,
            limits.shortPr + (isFromBelow(evidence) ? 1 : -1) * DEMANDS.misreadPr,
            reason('short PR', { pr, limit: limits.shortPr }),
          ),
        ]
      : []),
    atLeast(
      coherence,
      DEMANDS.coherence,
      reason('alike before the QRS', { correlation: coherence, limit: DEMANDS.coherence }),
    ),
    atLeast(
      coherentShare,
      DEMANDS.coherentShare,
      reason('beats alike before the QRS', { share: coherentShare, limit: DEMANDS.coherentShare }),
    ),
    atLeast(height / noise, DEMANDS.pOverNoise, reason('noise in the averaged P', { noise })),
    atMost(height, tallest, reason('height of P', { height, limit: tallest })),
    isAtRestBefore(evidence)
      ? {
          passes: true,
          why: reason('rest before P', { rest: restBeforeP, limit: DEMANDS.restBeforeP }),
        }
      : atMost(riseOfP, slowest, reason('rise of P', { rise: riseOfP, limit: slowest })),
  ];
}

/** A P that points down in lead II where QRS points up may run up from the node: then none that is near may lead to the QRS. */
const isFromBelow = ({ uprightP, beats }: Evidence): boolean =>
  uprightP < 0.5 && share(beats, ({ qrs }) => (qrs?.height ?? 0) > 0) >= 0.5;

/**
 * A P that rises slowly has two tips, or a filter has blurred it. It is no wave of fluttering atria: the line rests before
 * it, and twice as many waves would be too few, or leave no time for such a rest.
 */
const isAtRestBefore = ({ rate, riseOfP, restBeforeP, patient }: Evidence): boolean =>
  riseOfP > DEMANDS.riseOfP[patient.species] &&
  restBeforeP >= DEMANDS.restBeforeP &&
  (2 * rate < DEMANDS.slowestFlutter || restBeforeP >= DEMANDS.restOfHalf * (30 / rate));

/**
 * So many beats at an equal PR are no chance: a P at any time of the half of the cycle in which it can be seen would come
 * within the reading error of the usual PR in this share of the beats.
 */
function beatsAsked({ rate }: Evidence, limits: IntervalLimits | null): number {
  const { chance, beats } = DEMANDS;
  if (!limits || !(rate > 0)) return beats.most;
  const byChance = (2 * limits.equalPr) / (30 / rate);
  const asked = byChance < 1 ? 1 + Math.ceil(Math.log(chance) / Math.log(byChance)) : beats.most;
  return Math.max(beats.least, Math.min(beats.most, asked));
}

function ofQrs(
  evidence: Evidence,
  main: { readonly index: number; readonly share: number },
  limits: IntervalLimits | null,
  range: RateRange | null,
): Demand[] {
  const { above, beats, shapes, patient } = evidence;
  const asked = beatsAsked(evidence, limits);
  const count = above.length;
  const family = shapes.families[main.index];
  const width = family?.qrsDuration ?? family?.qrsAtLeast ?? Number.NaN;
  const led = limits && leadsWideQrs(evidence, width, limits, range);
  const steepness = family?.steepness ?? 0;
  const limit = leastSteepness(evidence);
  const foreign = beats.length > 0 ? 1 - count / beats.length : 1;
  return [
    atLeast(count, asked, reason('beats from above', { count, limit: asked })),
    atLeast(
      main.share,
      DEMANDS.oneFamily,
      reason('one shape', { share: main.share, limit: DEMANDS.oneFamily }),
    ),
    atLeast(steepness, limit, reason('steep QRS', { steepness, limit })),
    atMost(
      foreign,
      DEMANDS.ventricular,
      reason('ventricular share', { share: foreign, limit: DEMANDS.ventricular }),
    ),
    led
      ? { passes: true, why: led }
      : limits
        ? atMost(width, limits.narrowQrs, reason('narrow QRS', { width, limit: limits.narrowQrs }))
        : { passes: false, why: reason('no QRS limit', { species: patient.species }) },
  ];
}

/**
 * mV/s. What is less steep than a QRS mostly is may be a P alone; but not what follows a P far gentler than itself, and is
 * followed by a T: on a lead that shows the heart low, or through a slow filter, so is a QRS.
 */
function leastSteepness({ above, atrial, riseOfP }: Evidence): number {
  if (share(above, ({ t }) => t !== null) < DEMANDS.followedByT) return STEEP;
  const ofP = (STEEPEST_OF_BELL * atrial.height) / riseOfP;
  const least = Math.max(DEMANDS.leastSteep, DEMANDS.steeperThanP * ofP);
  return Number.isNaN(least) ? STEEP : Math.min(STEEP, least);
}

/** Steepest slope of a bell, as a multiple of its height over the time from its half to its peak. A constant of geometry, not a clinical number. */
const STEEPEST_OF_BELL = 0.71;

/** Steady atria march: half of the intervals within this share of the middle one. Own choice, not a clinical number. */
const MARCHING = 0.03;

function betweenThem({ between, conduction, beats, unevenness, lateTallT }: Evidence): Demand[] {
  const { marked, inStep, mostInARow } = conduction;
  // Where the atria keep time, what is out of step with them is no P of theirs but a jolt.
  const blocked =
    unevenness <= MARCHING ? Math.round(inStep * conduction.blocked) : conduction.blocked;
  // Two in one interval, a cycle apart, are a block by themselves, however many beats are conducted elsewhere.
  const isInARow = mostInARow >= 2 && Math.round(inStep * conduction.blocked) >= 2;
  const { tallestInPause, usuallyBetween } = between;
  const count = Math.max(1, beats.length);
  return [
    atMost(
      isInARow ? 1 : blocked <= 1 ? 0 : blocked / count,
      DEMANDS.confirmedLoneP,
      reason('P without QRS', { count: blocked, limit: DEMANDS.confirmedLoneP }),
    ),
    atMost(
      marked / count,
      DEMANDS.markedLoneP,
      reason('marked P without QRS', { count: marked, limit: DEMANDS.markedLoneP }),
    ),
    atMost(
      lateTallT,
      DEMANDS.lateTallT,
      reason('late tall T', { share: lateTallT, limit: DEMANDS.lateTallT }),
    ),
    atMost(
      tallestInPause,
      DEMANDS.missedQrs,
      reason('QRS in pauses', { share: tallestInPause, limit: DEMANDS.missedQrs }),
    ),
    atMost(
      usuallyBetween,
      DEMANDS.missedQrs,
      reason('QRS between beats', { share: usuallyBetween, limit: DEMANDS.missedQrs }),
    ),
  ];
}

function ofRate(evidence: Evidence, range: RateRange | null): Demand {
  const rate = shortRate(evidence);
  if (range) {
    const limit = range.sinusCeiling;
    return atMost(rate, limit, reason('fastest quarter', { rate, limit }));
  }
  const { species } = evidence.patient;
  return { passes: false, why: reason('no rate range', { rate, species }) };
}
