import { corner, cornerTowards, steepest } from './corner.js';
import { steps } from './grid.js';

/** T is over this long after the QRS began, however slow the heart; in s. From memory, unverified: no dog or cat reaches it. */
const latestPeak = 0.36;
/** In a short cycle T peaks before this share of it; what comes later is a P wave. */
const shareOfCycle = 0.66;
/** What peaks later than this after the QRS began, behind a wave that is over by then, is a P wave; in s. From memory, unverified: QT is up to 0.27 s. */
const lateForT = 0.24;
/** That earlier wave is at least this share of it. */
const shareOfLater = 0.2;
/** T must stand out of the noise of the average by this factor, and be this high in mV. */
const clear = 5;
const least = 0.012;
/** A T is not smaller than this share of its QRS; below, it is taken as a ripple of the ST segment. */
const shareOfQrs = 0.02;
/** A lobe against the main one belongs to a biphasic T from this share of it on. */
const secondLobe = 0.3;
/** ... unless the trace rests between the two: within this share of the main one, for so many s. Then it is a P wave. */
const rest = { share: 0.1, seconds: 0.02 };
/** The lines for the corners end so many half-widths beyond the steepest slope. */
const beyond = 5;
/** No slope of a T lies further from its peak; in s. */
const widest = 0.13;

/** A T wave; times in s. */
export interface TWave {
  readonly onset: number;
  readonly peak: number;
  readonly end: number;
  /** mV from the baseline. */
  readonly height: number;
}

/**
 * The T wave of an average beat, or null where none stands out. `mean` is smooth, in mV from the
 * baseline before the beat; QRS edges and the results are positions in it. `cycle` is the usual time
 * to the next beat in samples.
 */
export function tEdges(
  mean: Float64Array,
  qrs: { readonly onset: number; readonly end: number },
  cycle: number,
  noise: number,
  qrsHeight: number,
): TWave | null {
  const from = qrs.end + steps(0.008);
  const until = Math.min(
    qrs.onset + steps(latestPeak),
    qrs.onset + Math.round(shareOfCycle * cycle),
    lastFinite(mean, from) - 2,
  );
  const floor = Math.max(least, clear * noise, shareOfQrs * qrsHeight);
  const lobes = lobesOfT(mean, from, until, qrs.onset + steps(lateForT), floor);
  const main = largest(mean, lobes);
  if (main < 0) return null;
  const height = mean[main]!;
  const size = Math.abs(height);
  if (size < floor) return null;
  const belongs = (i: number): boolean =>
    i === main ||
    (mean[i]! * height < 0 &&
      Math.abs(mean[i]!) >= secondLobe * size &&
      !restsBetween(mean, main, i, rest.share * size));
  const k = lobes.indexOf(main);
  const next = lobes[k + 1];
  const previous = lobes[k - 1];
  const last = next !== undefined && belongs(next) ? next : main;
  const first = previous !== undefined && belongs(previous) ? previous : main;
  return {
    onset: outwards(mean, first, qrs.end, -1, noise),
    peak: main,
    end: outwards(mean, last, Math.min(lastFinite(mean, last), qrs.onset + cycle), 1, noise),
    height,
  };
}

/** The lobes up to `until`, or up to `late` where the largest of all comes after that and after a rest: that is a P wave. */
function lobesOfT(
  mean: Float64Array,
  from: number,
  until: number,
  late: number,
  floor: number,
): number[] {
  const all = lobesBetween(mean, from, until);
  const main = largest(mean, all);
  if (main <= late) return all;
  const early = lobesBetween(mean, from, late);
  const first = largest(mean, early);
  if (first < 0) return all;
  const later = Math.abs(mean[main]!);
  const isWave = Math.abs(mean[first]!) >= Math.max(floor, shareOfLater * later);
  return isWave && restsBetween(mean, first, main, rest.share * later) ? early : all;
}

/** The lobe that is furthest from 0; -1 for none. */
const largest = (mean: Float64Array, lobes: readonly number[]): number =>
  lobes.reduce((a, b) => (Math.abs(mean[b]!) > Math.abs(mean[a]!) ? b : a), lobes[0] ?? -1);

function restsBetween(mean: Float64Array, one: number, other: number, within: number): boolean {
  let still = 0;
  for (let i = Math.min(one, other); i < Math.max(one, other); i++) {
    still = Math.abs(mean[i]!) < within ? still + 1 : 0;
    if (still >= steps(rest.seconds)) return true;
  }
  return false;
}

/** Positions of the tips away from 0, one a half wave, in order. */
function lobesBetween(mean: Float64Array, from: number, until: number): number[] {
  const lobes: number[] = [];
  for (let i = from; i <= until; i++) {
    const x = mean[i]!;
    const s = Math.sign(x);
    if (!(s * x >= s * mean[i - 1]! && s * x > s * mean[i + 1]!)) continue;
    const before = lobes.at(-1);
    if (before !== undefined && mean[before]! * x > 0) {
      if (Math.abs(x) > Math.abs(mean[before]!)) lobes[lobes.length - 1] = i;
    } else {
      lobes.push(i);
    }
  }
  return lobes;
}

/** From a tip outwards to the corner at the foot of its slope, at most to `limit`. */
function outwards(
  mean: Float64Array,
  tip: number,
  limit: number,
  step: 1 | -1,
  noise: number,
): number {
  const sign = Math.sign(mean[tip]!);
  const size = Math.abs(mean[tip]!);
  // The valley: where the trace turns up again by more than noise (a P, or the QRS).
  let valley = tip;
  for (let i = tip; step * (limit - i) >= 0 && step * (i - tip) <= 2.5 * steps(widest); i += step) {
    if (sign * mean[i]! < sign * mean[valley]!) valley = i;
    else if (sign * (mean[i]! - mean[valley]!) > Math.max(0.15 * size, 4 * noise)) break;
    if (sign * mean[i]! < -secondLobe * size) break;
  }
  const nearest = step * (valley - tip) <= steps(widest) ? valley : tip + step * steps(widest);
  const steep = steepest(mean, tip, nearest);
  const width = Math.abs(steep - tip);
  const far = steep + step * Math.max(steps(0.02), beyond * width);
  const bound = step * (limit - far) < 0 ? limit : far;
  // Beyond the valley lies another wave; a long flat run to it is no valley.
  if (step * (valley - bound) < 0 && isTurned(mean, valley, bound, sign, size)) {
    return step * (valley - steep) > 2 ? corner(mean, steep, valley) : valley;
  }
  if (step * (bound - steep) <= 2) return bound;
  // Cut by the next QRS while still on its way to the baseline.
  const isCut = bound !== far && step > 0 && sign * mean[bound]! > 0;
  return isCut ? cornerTowards(mean, steep, far, 0, bound) : corner(mean, steep, bound);
}

function isTurned(
  mean: Float64Array,
  valley: number,
  bound: number,
  sign: number,
  size: number,
): boolean {
  const step = bound > valley ? 1 : -1;
  for (let i = valley; i !== bound; i += step) {
    if (sign * (mean[i]! - mean[valley]!) > 0.15 * size) return true;
  }
  return false;
}

function lastFinite(mean: Float64Array, from: number): number {
  let i = from;
  while (i + 1 < mean.length && Number.isFinite(mean[i + 1])) i++;
  return i;
}
