import type { Phases } from './phases.js';

/**
 * Share of the variance of `values` that a single wave a turn explains, 0 to 1: the squared
 * angular-linear correlation r^2 = (rxc^2 + rxs^2 - 2 rxc rxs rcs) / (1 - rcs^2)
 * (Zar, Biostatistical Analysis, equation 27.47). It does not change when all turns are shifted, so
 * it needs no phase origin. One phase a value. 0 where the values do not vary.
 */
export function followShare(values: Float64Array, phases: Phases): number {
  const n = values.length;
  let [x, c, s, xx, cc, ss, xc, xs, cs] = [0, 0, 0, 0, 0, 0, 0, 0, 0];
  for (let i = 0; i < n; i += 1) {
    const value = values[i] as number;
    const cosine = phases.cosine[i] as number;
    const sine = phases.sine[i] as number;
    x += value;
    c += cosine;
    s += sine;
    xx += value * value;
    cc += cosine * cosine;
    ss += sine * sine;
    xc += value * cosine;
    xs += value * sine;
    cs += cosine * sine;
  }
  const vxx = xx - (x * x) / n;
  const vcc = cc - (c * c) / n;
  const vss = ss - (s * s) / n;
  const vcs = cs - (c * s) / n;
  const vxc = xc - (x * c) / n;
  const vxs = xs - (x * s) / n;
  const determinant = vcc * vss - vcs * vcs;
  if (!(vxx > 1e-18) || !(determinant > 1e-9 * n * n)) return 0;
  const explained = (vxc * vxc * vss + vxs * vxs * vcc - 2 * vxc * vxs * vcs) / determinant;
  return Math.min(1, Math.max(0, explained / vxx));
}

/**
 * What is left of `values` at `times` after the best parabola through them is taken away: a rate that
 * climbs or falls over the strip is not a swing with the breath.
 */
export function withoutTrend(values: Float64Array, times: Float64Array): Float64Array {
  const line = centred(times);
  const curve = less(centred(line.map(square)), line);
  return less(less(centred(values), line), curve);
}

const square = (value: number): number => value * value;

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}

/** What is left of the first without its share of the second. */
function less(a: Float64Array, b: Float64Array): Float64Array {
  const length = dot(b, b);
  const share = length > 1e-12 ? dot(a, b) / length : 0;
  const out = new Float64Array(a.length);
  for (let i = 0; i < a.length; i += 1) out[i] = a[i]! - share * b[i]!;
  return out;
}

function centred(values: Float64Array): Float64Array {
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum += values[i]!;
  const mean = sum / values.length;
  const out = new Float64Array(values.length);
  for (let i = 0; i < values.length; i += 1) out[i] = values[i]! - mean;
  return out;
}
