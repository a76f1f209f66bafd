import { steps } from './grid.js';

// From memory, unverified: a P lasts 0.03 to 0.05 s in dogs and cats, a Q under 0.02 s.

/** What stands before a QRS and is as long as this, in s, from its onset to its tip and until it is over, is a P. */
const p = { toTip: 0.008, whole: 0.022 };
/** It falls to this share of its height before the QRS. */
const over = 0.35;
/** So far above the noise it must stand. */
const overNoise = 5;
/** Atria are crossed more slowly than ventricles: its slopes reach this share of the steepest of the QRS at most. Own choice, not a clinical number. */
const gentle = 0.5;
/** Between the two the line rests: so long, within so long, at this share of the slope by which P fell; in s. Own choice, not a clinical number. */
const rest = { lasting: 0.006, within: 0.014, slope: 0.4 };
/** R peaks at least so long after QRS begins; in s. */
const toR = 0.008;

/**
 * Where the line rests between a P and the QRS that it leads to, if what was followed back from the QRS as far as `onset`
 * holds a P; `onset` where it does not. A short PR segment is shorter than a QRS may rest, and a filter rounds it off; but
 * a P is longer than a Q, gentler than a QRS, and gone before that begins. The first wave of a ventricle's beat goes over
 * into the next without a rest. `mean` in mV on the grid, R at `at`, `steepest` its greatest change over two samples.
 */
export function restAfterP(
  mean: Float64Array,
  onset: number,
  at: number,
  steepest: number,
  noise: number,
): number {
  for (const sign of [1, -1]) {
    const found = behindWave(mean, onset, at - steps(toR), sign, noise);
    if (found === null) continue;
    const { tip, end } = found;
    const before = steepestOf(mean, onset, tip);
    const fall = steepestOf(mean, tip, end);
    if (Math.max(before, fall) > gentle * steepest) continue;
    const resting = restFrom(mean, end, at - steps(toR), rest.slope * fall);
    if (resting >= 0) return resting;
  }
  return onset;
}

/** The tip of the first wave of the sign, and where it has fallen off again; null where none as long as a P does. */
function behindWave(mean: Float64Array, onset: number, last: number, sign: number, noise: number) {
  let tip = onset;
  for (let i = onset; i <= last; i++) {
    const height = sign * (mean[tip]! - mean[onset]!);
    if (sign * (mean[i]! - mean[tip]!) > 0) tip = i;
    else if (sign * (mean[i]! - mean[onset]!) <= over * height && height > overNoise * noise) {
      const isLong = tip - onset >= steps(p.toTip) && i - onset >= steps(p.whole);
      return isLong && i - tip >= steps(p.toTip) ? { tip, end: i } : null;
    }
  }
  return null;
}

const slopeAt = (mean: Float64Array, i: number): number => Math.abs(mean[i + 1]! - mean[i - 1]!);

function steepestOf(mean: Float64Array, from: number, to: number): number {
  let most = 0;
  for (let i = from; i <= to; i++) if (slopeAt(mean, i) > most) most = slopeAt(mean, i);
  return most;
}

/** The middle of the first stretch of rest; -1 where there is none. */
function restFrom(mean: Float64Array, from: number, last: number, most: number): number {
  const lasting = steps(rest.lasting);
  for (let i = from; i <= from + steps(rest.within) && i + lasting <= last; i++) {
    if (steepestOf(mean, i, i + lasting) <= most) return i + (lasting >> 1);
  }
  return -1;
}
