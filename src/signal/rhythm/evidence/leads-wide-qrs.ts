import { type Reason, reason } from '../../reason.js';
import type { IntervalLimits } from '../interval-limits.js';
import type { RateRange } from '../rate-ranges.js';
import type { Evidence } from './evidence.js';

// The constants of this file are choices of the method, on the side of caution: not clinical numbers.

/** Nearly each beat after its P, at an equal PR: more than is asked where the QRS is narrow, since it proves all by itself. */
const EACH = 0.95;
/** So many P waves point up in lead II. */
const UPRIGHT = 0.9;
/** A ventricle that goes its own way for so few beats may meet the P waves by chance. */
const LEAST = 10;
/** The P halfway between two others begins so long, s, after QRS has ended, if it is to lie clear of it. */
const CLEAR = 0.02;

/** Why P leads to the QRS of a stretch though it is not narrow, or null where it does not or need not. */
export function leadsWideQrs(
  { atrial, above, beats, rate, uprightP }: Evidence,
  width: number,
  limits: IntervalLimits,
  range: RateRange | null,
): Reason | null {
  const { asked, withP, equalPr, pr } = atrial;
  // Atria that a ventricle stirs from below are seen from lead II to be crossed upwards.
  const isFromSinusNode = uprightP >= UPRIGHT;
  const isTied = withP >= EACH * asked && equalPr >= EACH;
  const isUsual = pr >= limits.shortPr && pr <= limits.longPr + limits.equalPr;
  // Faster, the P of a beat from below may come as late as one that leads to the next.
  const isCalm = range !== null && rate <= range.high;
  if (!isFromSinusNode || !isTied || !isUsual || !isCalm || above.length < LEAST) return null;
  // What is wider than narrow and not wide may have a P at its edge, of atria twice as fast.
  const isQrsAlone =
    width > limits.wideQrs || (width > limits.narrowQrs && 30 / rate >= pr + width + CLEAR);
  if (above.length < EACH * beats.length || !isQrsAlone) return null;
  return reason('wide QRS led by P', { width, pr, share: equalPr, limit: limits.wideQrs });
}
