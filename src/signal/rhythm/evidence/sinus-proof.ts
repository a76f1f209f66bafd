import type { ShapeFamilies, ShapeFamily } from '../../beats/families.js';
import { nthSmallest } from '../../filter/order-statistics.js';
import { mean, median } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import { type Reason, reason } from '../../reason.js';
import { type IntervalLimits, intervalLimits } from '../interval-limits.js';
import { type RateRange, rateRange } from '../rate-ranges.js';
import { type Evidence, isFromAbove } from './evidence.js';
import { mostHidden } from './hidden-p.js';

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
  /** Chance alone gives eight equal PR in less than one stretch in ten thousand. */
  beats: 8,
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
  /**
   * A P that is not followed would be as large as the others, though T or a saw of the atria may hide half
   * of it. Sinus rhythms stay under this, a cat's less clearly, as its P is lower and lies nearer to T.
   */
  hiddenP: { dog: 0.45, cat: 0.5, rabbit: 0.45, ferret: 0.45 },
  /** The same, of what keeps the time of the atria: neither T nor a QRS does. No more than this, and no less is sure. */
  clockedP: { most: 0.3, least: 0.1 },
  /** The same, of a P that comes in each cycle at a time of its own. */
  looseP: 0.14,
  /** From half of its height, s: a P of 0.05 s rises in half of that, a wave of fluttering atria in more. */
  riseOfP: { dog: 0.017, cat: 0.015, rabbit: 0.015, ferret: 0.015 },
  /** Waves marked as P without QRS, a beat: the second degree has one at every fifth beat or more. */
  confirmedLoneP: 0.05,
  markedLoneP: 0.2,
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

interface Demand {
  readonly passes: boolean;
  readonly why: Reason;
}

/** A value that is no number passes neither. */
const atLeast = (value: number, limit: number, why: Reason): Demand => ({
  passes: value >= limit,
  why,
});

const atMost = (value: number, limit: number, why: Reason): Demand => ({
  passes: value <= limit,
  why,
});

function weigh(evidence: Evidence): SinusProof {
  const limits = intervalLimits(evidence.patient);
  const range = rateRange(evidence.patient);
  const main = mainFamily(evidence);
  const demands = [
    ...ofP(evidence, limits),
    ...ofQrs(evidence, main, limits),
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

function ofP({ atrial, patient, riseOfP }: Evidence, limits: IntervalLimits | null): Demand[] {
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
            limits.shortPr - DEMANDS.misreadPr,
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
    atMost(riseOfP, slowest, reason('rise of P', { rise: riseOfP, limit: slowest })),
  ];
}

function ofQrs(
  { above, beats, shapes, patient }: Evidence,
  main: { readonly index: number; readonly share: number },
  limits: IntervalLimits | null,
): Demand[] {
  const count = above.length;
  const family = shapes.families[main.index];
  const width = family?.qrsDuration ?? Number.NaN;
  const steepness = family?.steepness ?? 0;
  const foreign = beats.length > 0 ? 1 - count / beats.length : 1;
  return [
    atLeast(count, DEMANDS.beats, reason('beats from above', { count, limit: DEMANDS.beats })),
    atLeast(
      main.share,
      DEMANDS.oneFamily,
      reason('one shape', { share: main.share, limit: DEMANDS.oneFamily }),
    ),
    atLeast(steepness, STEEP, reason('steep QRS', { steepness, limit: STEEP })),
    atMost(
      foreign,
      DEMANDS.ventricular,
      reason('ventricular share', { share: foreign, limit: DEMANDS.ventricular }),
    ),
    limits
      ? atMost(width, limits.narrowQrs, reason('narrow QRS', { width, limit: limits.narrowQrs }))
      : { passes: false, why: reason('no QRS limit', { species: patient.species }) },
  ];
}

/** Steady atria march: half of the intervals within this share of the middle one. Own choice, not a clinical number. */
const MARCHING = 0.03;

function betweenThem({ between, conduction, beats, unevenness }: Evidence): Demand[] {
  const { marked, inStep } = conduction;
  // Where the atria keep time, what is out of step with them is no P of theirs but a jolt.
  const blocked =
    unevenness <= MARCHING ? Math.round(inStep * conduction.blocked) : conduction.blocked;
  const { tallestInPause, usuallyBetween } = between;
  const count = Math.max(1, beats.length);
  return [
    atMost(
      blocked <= 1 ? 0 : blocked / count,
      DEMANDS.confirmedLoneP,
      reason('P without QRS', { count: blocked, limit: DEMANDS.confirmedLoneP }),
    ),
    atMost(
      marked / count,
      DEMANDS.markedLoneP,
      reason('marked P without QRS', { count: marked, limit: DEMANDS.markedLoneP }),
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

/** Atria that fire of themselves are regular: half of the intervals within this share of the middle one. Common practice; the figure is an own choice. */
const UNEVEN = 0.05;
/** So many pauses without another P tell of all. Own choice, not a clinical number. */
const CLEAR_PAUSES = 4;
/** The other intervals must come as unevenly as this. Own choice, not a clinical number. */
const UNEVEN_BESIDE = 0.03;

/** From the peak of a P to where it has fallen to three fifths of its height (a standard deviation of its shape), s. Own choice, not a clinical number. */
const WIDTH_OF_P = 0.008;
/** Of a P halfway so much is left in the average of the cycles, at least, where they count as even. Own choice, not a clinical number. */
const EVEN = 0.85;

/**
 * What the average of the cycles leaves of a P halfway, where each interval of the atria varies by itself: their halves
 * then differ by half of what the whole ones vary, and P is blurred by that.
 */
function leftInAverage({ between, rate }: Evidence): number {
  // The middle distance from the middle is 0.6745 standard deviations of a normal distribution.
  const varies = (between.unevenBeside / 0.6745) * (60 / rate);
  return 1 / Math.hypot(1, varies / 2 / WIDTH_OF_P);
}

/** An average that leaves less than this of a P tells nothing of it. Own choice, not a clinical number. */
const BLURRED = 0.5;
/**
 * Half of the intervals this far off the middle one, as a share: atria that fire more unevenly by themselves are led from
 * several places, and their P waves differ (multifocal atrial tachycardia). From memory, unverified.
 */
const SEVERAL_PLACES = 0.1;

function ofHiddenP(evidence: Evidence, range: RateRange | null): Demand {
  const left = leftInAverage(evidence);
  if (!(left < EVEN) || !isHalfwayOnT(evidence)) return ofHiddenPInTime(evidence, range, 1);
  // Atria that fire by themselves do not follow the breath.
  if (evidence.breath === 'linked' || evidence.unevenness > SEVERAL_PLACES) {
    const known = ofHiddenPInTime(evidence, range, 1);
    if (known.passes || left >= BLURRED) return known;
  }
  const share = evidence.looseP();
  const limit = DEMANDS.looseP;
  const why = Number.isNaN(share)
    ? reason('P between P unseen', { limit })
    : reason('P between P', { share, limit });
  const passes = share <= limit;
  return passes && left >= BLURRED ? ofHiddenPInTime(evidence, range, left) : { passes, why };
}

/** Whether T reaches to where a P halfway may stand; beyond it a P is marked by itself, whenever it comes. */
function isHalfwayOnT({ above, rate, unevenness }: Evidence): boolean {
  const ends: number[] = [];
  const aheads: number[] = [];
  for (const { time, t, p } of above) {
    if (t) ends.push(t.end - time);
    if (p) aheads.push(time - p.peak);
  }
  const interval = 60 / rate;
  const half = interval / 2 - median(aheads);
  return !(half - 2 * unevenness * interval - BESIDE_T > median(ends));
}

/** Half of a P, s. From memory, unverified. */
const BESIDE_T = 0.025;

/** @param left what an average leaves of a P, 1 for all of it */
function ofHiddenPInTime(evidence: Evidence, range: RateRange | null, left: number): Demand {
  const { hiddenP, hiddenPInPauses } = evidence.between;
  // Pauses are often too few to tell alone: then the whole stretch tells of them too.
  const inPauses = Number.isNaN(hiddenPInPauses.half) ? 0 : mostHidden(hiddenPInPauses);
  const most = Math.max(mostHidden(hiddenP), inPauses);
  const limit = left < 1 ? left * DEMANDS.hiddenP.dog : DEMANDS.hiddenP[evidence.patient.species];
  // Twice as fast the atria would be no sinus node's, and those do not follow breath or mood. In pauses they need not be.
  const { pauses, unevenBeside } = evidence.between;
  const areClear = pauses >= CLEAR_PAUSES && unevenBeside > UNEVEN_BESIDE && inPauses <= limit;
  const rate = areClear ? shortRate(evidence) : evidence.rate;
  const isUneven =
    left === 1 && range && evidence.unevenness > UNEVEN && 2 * rate > range.sinusCeiling;
  if (isUneven && !(evidence.clockedP().halfAtLeast > DEMANDS.clockedP.least)) {
    const { unevenness } = evidence;
    return {
      passes: true,
      why: reason('too uneven for faster atria', { share: unevenness, limit: UNEVEN }),
    };
  }
  if (!(most <= limit) && inPauses <= limit) {
    // What T hides from sight, or a QRS, shows where it keeps another time than they.
    const clocked = evidence.clockedP();
    const clockedLeft = Math.max(
      hiddenP.half <= limit ? 0 : clocked.half,
      hiddenP.thirds > limit ? clocked.thirds : 0,
    );
    const { least } = DEMANDS.clockedP;
    const limitInTime = left * DEMANDS.clockedP.most;
    if (clockedLeft <= limitInTime && !(clocked.halfAtLeast > least)) {
      return {
        passes: true,
        why: reason('P in time between P', { share: clockedLeft, limit: limitInTime }),
      };
    }
  }
  return atMost(
    most,
    limit,
    Number.isNaN(most)
      ? reason('P between P unseen', { limit })
      : reason('P between P', { share: most, limit }),
  );
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

/** P waves stay under this, QRS over it, mV/s. From memory, unverified; a beat whose QRS is less may be a P alone. */
const STEEP = 20;

/** Whether the QRS of a family rises too steeply to be a P alone. */
export function isSteep(family: ShapeFamily | undefined): boolean {
  return family !== undefined && family.steepness >= STEEP;
}

/** Wide beats on time up to this share are told as such, beside the shape of the others. Own choice, not a clinical number. */
const FEW_WIDE = 0.2;

/**
 * The family of most beats from above; those that a jolt bends have no shape of their own, and a few wide ones on time
 * are no doubt about the others.
 */
export function mainFamily({ beats, above, shapes }: Evidence): { index: number; share: number } {
  const areFewWide = above.filter(isWideOnTime).length <= FEW_WIDE * above.length;
  const counts = new Map<number, number>();
  let judged = 0;
  for (let i = 0; i < beats.length; i += 1) {
    const beat = beats[i]!;
    if (!hasOwnShape(i, beat, shapes) || (areFewWide && isWideOnTime(beat))) continue;
    judged += 1;
    const family = shapes.of[i]!;
    if (family >= 0) counts.set(family, (counts.get(family) ?? 0) + 1);
  }
  const [index, most] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [-1, 0];
  return { index, share: judged > 0 ? most / judged : 0 };
}

const isWideOnTime = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

const hasOwnShape = (i: number, beat: MarkedBeat, shapes: ShapeFamilies): boolean =>
  isFromAbove(beat) && !(isBendable(beat) && shapes.of[i] !== 0 && shapes.off(i)?.isCalm === false);

const isBendable = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'unclassified' || kind === 'junctional escape';

/** Beats counted over the time that they fill. */
export function meanRate({ beats }: Pick<Evidence, 'beats'>): number {
  const first = beats[0];
  const last = beats.at(-1);
  return first && last && beats.length > 1
    ? (60 * (beats.length - 1)) / (last.time - first.time)
    : Number.NaN;
}

/** Mean rate of the beats that no ventricle started, where four intervals between them tell it. */
function ownRate({ beats, intervals }: Evidence): number {
  const own = intervalsAbove({ beats, intervals });
  return own.length >= 4 ? 60 / mean(own) : meanRate({ beats });
}

function intervalsAbove({ beats, intervals }: Pick<Evidence, 'beats' | 'intervals'>): number[] {
  const own: number[] = [];
  for (let i = 0; i < intervals.length; i += 1) {
    if (isFromAbove(beats[i]!) && isFromAbove(beats[i + 1]!)) own.push(intervals[i]!);
  }
  return own;
}

/** Rate of the fastest quarter of the intervals between beats that no ventricle started. */
function shortRate({ beats, intervals }: Evidence): number {
  const own = new Float64Array(intervalsAbove({ beats, intervals }));
  const quarter = own.length > 0 ? nthSmallest(own, Math.floor(own.length / 4)) : Number.NaN;
  return quarter > 0 ? 60 / quarter : meanRate({ beats });
}
