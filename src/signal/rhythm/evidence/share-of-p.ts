import { average, scatterAbout } from '../../filter/excerpt.js';
import { solver } from '../../filter/solve.js';
import type { UsualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Of the height of T, squared: where the trace lies as a whole does not count. */
const LEVEL = 10;
/** Of the height of T, squared: T is not that smooth in its last hundredths. */
const RIDGE = 1e-5;
/** Of the height of T, for values as far apart as T takes to change: what is read between two of them lies off by so much. */
const BETWEEN_VALUES = 1 / 16;

/** How much of a P there is, and the standard error of that; 1 is a whole P. */
export interface ShareOfP {
  readonly share: number;
  readonly error: number;
}

/**
 * The share of a P that fits stretches of a lead best, where its peak may stand in them.
 *
 * What else there is (T) is taller than a P but smoother. So the average of the stretches is taken as
 * any curve that changes over `smooth`, plus noise, plus a share of the P, and the share is fitted by
 * generalised least squares with the curve as a Gaussian process (Rasmussen CE, Williams CKI,
 * Gaussian Processes for Machine Learning, 2006, section 2.7: explicit basis functions). Where what is left
 * is less smooth than that, T is another curve than was taken for granted, and the error is larger by as much.
 *
 * @param rows level stretches of equal length, mV
 * @param peak first and last step at which the peak may stand
 * @param smooth scale of the covariance of T, steps
 * @param apart from one value of the lead to the next, steps: rows of few values show T and P less exactly
 * @returns null where noise leaves no P to compare with
 */
export function shareOfP(
  rows: readonly Float64Array[],
  p: UsualP,
  peak: readonly [first: number, last: number],
  smooth: number,
  apart: number,
): ShareOfP | null {
  const all = average(rows);
  const noise = scatterAbout(all, rows);
  const smoothness = smoothOrNoise(all, noise / (rows.length - 1), smooth, apart);
  const solve = solver(smoothness, all.length);
  let most = { share: Number.NEGATIVE_INFINITY, power: 0, weights: all, at: 0 };
  for (let at = peak[0]; at <= peak[1]; at += 1) {
    const weights = solve(standing(p.whole, at, all.length));
    const half = solve(standing(p.halves[0], at, all.length));
    const power = dot(half, standing(p.halves[1], at, all.length));
    if (!(power > 0)) return null;
    const share = dot(weights, all) / power;
    if (!(share <= most.share)) most = { share, power, weights, at };
  }
  if (most.power === 0) return { share: most.share, error: 0 };
  const { share, power, weights, at } = most;
  const scatter = scatterOfShares(rows, weights, power, share);
  const error = Math.sqrt(Math.max(1 / power, scatter / (rows.length - 1)));
  const wave = standing(p.whole, at, all.length);
  const left = all.map((value, i) => value - share * wave[i]!);
  const misfit = dot(solve(left), left) / left.length;
  return { share, error: error * Math.sqrt(Math.max(1, misfit)) };
}

/** Mean squared distance of the share in each row from that in all. */
function scatterOfShares(
  rows: readonly Float64Array[],
  weights: Float64Array,
  power: number,
  share: number,
): number {
  let sum = 0;
  for (const row of rows) sum += (dot(weights, row) / power - share) ** 2;
  return sum / rows.length;
}

/** How the points of the average vary together where no P stands: by T, and by `noise` mV². */
function smoothOrNoise(
  all: Float64Array,
  noise: number,
  smooth: number,
  between: number,
): Float64Array {
  const n = all.length;
  const height = Math.max(...all.map((value) => value ** 2));
  const rough = RIDGE + (BETWEEN_VALUES * (between / smooth) ** 2) ** 2;
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const apart = (i - j) / smooth;
      out[i * n + j] = height * (Math.exp(-0.5 * apart * apart) + LEVEL);
    }
    out[i * n + i]! += noise + rough * height;
  }
  return out;
}

/** The part of a P with its peak at a step that falls on the stretch. */
function standing(p: Float64Array, peak: number, length: number): Float64Array {
  const before = peak - (p.length - 1) / 2;
  const out = new Float64Array(length);
  for (let i = 0; i < length; i += 1) out[i] = p[i - before] ?? 0;
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
