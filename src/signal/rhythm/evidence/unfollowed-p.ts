import { median } from '../../filter/spread.js';
import { reason } from '../../reason.js';
import type { RateRange } from '../rate-ranges.js';
import { atMost, type Demand } from './demand.js';
import type { Evidence } from './evidence.js';
import type { HiddenP } from './hidden-p.js';
import { shortRate } from './own-rate.js';

/** Shares of a P, on the side of caution. Own choice, not a clinical number. */
const LIMITS = {
  /**
   * A P that is not followed would be as large as the others, though T or a saw of the atria may hide half
   * of it. Sinus rhythms stay under this, a cat's less clearly, as its P is lower and lies nearer to T.
   */
  hiddenP: { dog: 0.45, cat: 0.5, rabbit: 0.45, ferret: 0.45 },
  /** Beyond the end of T nothing hides a P: of one that is there, all would show. */
  beyondT: 0.65,
  /** The same, of what keeps the time of the atria: neither T nor a QRS does. No more than this, and no less is sure. */
  clockedP: { most: 0.3, least: 0.1 },
  /** The same, of a P that comes in each cycle at a time of its own. */
  looseP: 0.14,
} as const;

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

/** The demand that no P stands between those of the beats, as one would that no QRS follows. */
export function ofHiddenP(evidence: Evidence, range: RateRange | null): Demand {
  const left = leftInAverage(evidence);
  if (!(left < EVEN) || !isHalfwayOnT(evidence)) return ofHiddenPInTime(evidence, range, 1);
  // Atria that fire by themselves do not follow the breath.
  if (evidence.breath === 'linked' || evidence.unevenness > SEVERAL_PLACES) {
    const known = ofHiddenPInTime(evidence, range, 1);
    if (known.passes || left >= BLURRED) return known;
  }
  const share = evidence.looseP();
  const limit = LIMITS.looseP;
  const why = Number.isNaN(share)
    ? reason('P between P unseen', { limit })
    : reason('P between P', { share, limit });
  const passes = share <= limit;
  return passes && left >= BLURRED ? ofHiddenPInTime(evidence, range, left) : { passes, why };
}

/** Whether T reaches to where a P halfway may stand; beyond it a P is marked by itself, whenever it comes. */
function isHalfwayOnT(evidence: Evidence): boolean {
  const { rate, unevenness } = evidence;
  return !(halfwayAfterT(evidence) > 2 * unevenness * (60 / rate) + BESIDE_T);
}

/** From the end of T to the peak of a P halfway, s; NaN without T or P. */
function halfwayAfterT({ above, rate }: Evidence): number {
  const ends: number[] = [];
  const aheads: number[] = [];
  for (const { time, t, p } of above) {
    if (t) ends.push(t.end - time);
    if (p) aheads.push(time - p.peak);
  }
  return 30 / rate - median(aheads) - median(ends);
}

/** Half of a P, s. From memory, unverified. */
const BESIDE_T = 0.025;

/** What was seen of a P at most, and what may be. */
interface Seen {
  readonly share: number;
  readonly limit: number;
}

/** Of the two places the one that comes nearest to its limit, or goes furthest over it; NaN where one halfway is not seen. */
function nearestLimit({ half, thirds }: HiddenP, limits: HiddenP): Seen {
  const halfway = { share: half, limit: limits.half };
  const atThirds = { share: thirds, limit: limits.thirds };
  return Number.isNaN(half) || !(ratio(atThirds) > ratio(halfway)) ? halfway : atThirds;
}

const ratio = ({ share, limit }: Seen): number => share / limit;
const isWithin = ({ share, limit }: Seen): boolean => share <= limit;

function limitsOf(evidence: Evidence, left: number): HiddenP {
  const { hiddenP, beyondT } = LIMITS;
  if (left < 1) return { half: left * hiddenP.dog, thirds: left * hiddenP.dog };
  const limit = hiddenP[evidence.patient.species];
  return { half: halfwayAfterT(evidence) > 0 ? beyondT : limit, thirds: limit };
}

/** @param left what an average leaves of a P, 1 for all of it */
function ofHiddenPInTime(evidence: Evidence, range: RateRange | null, left: number): Demand {
  const { hiddenP, hiddenPInPauses, pauses, unevenBeside } = evidence.between;
  const limits = limitsOf(evidence, left);
  const usual = nearestLimit(hiddenP, limits);
  // Pauses are often too few to tell alone: then the whole stretch tells of them too.
  const known = Number.isNaN(hiddenPInPauses.half) ? NONE : hiddenPInPauses;
  const paused = nearestLimit(known, limits);
  // Twice as fast the atria would be no sinus node's, and those do not follow breath or mood. In pauses they need not be.
  const areClear = pauses >= CLEAR_PAUSES && unevenBeside > UNEVEN_BESIDE && isWithin(paused);
  const rate = areClear ? shortRate(evidence) : evidence.rate;
  const isUneven =
    left === 1 && range && evidence.unevenness > UNEVEN && 2 * rate > range.sinusCeiling;
  if (isUneven && !(evidence.clockedP().halfAtLeast > LIMITS.clockedP.least)) {
    const { unevenness } = evidence;
    return {
      passes: true,
      why: reason('too uneven for faster atria', { share: unevenness, limit: UNEVEN }),
    };
  }
  if (!isWithin(usual) && isWithin(paused)) {
    // What T hides from sight, or a QRS, shows where it keeps another time than they.
    const clocked = evidence.clockedP();
    const clockedLeft = Math.max(
      hiddenP.half <= limits.half ? 0 : clocked.half,
      hiddenP.thirds > limits.thirds ? clocked.thirds : 0,
    );
    const { least } = LIMITS.clockedP;
    const limitInTime = left * LIMITS.clockedP.most;
    if (clockedLeft <= limitInTime && !(clocked.halfAtLeast > least)) {
      return {
        passes: true,
        why: reason('P in time between P', { share: clockedLeft, limit: limitInTime }),
      };
    }
  }
  const { share, limit } = ratio(paused) > ratio(usual) ? paused : usual;
  return atMost(
    share,
    limit,
    Number.isNaN(share)
      ? reason('P between P unseen', { limit })
      : reason('P between P', { share, limit }),
  );
}

/** No P shows. Not a clinical number. */
const NONE: HiddenP = { half: 0, thirds: 0 };
