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
  const n = values.length;
  const mean = (list: Float64Array): number => list.reduce((sum, value) => sum + value, 0) / n;
  const dot = (a: Float64Array, b: Float64Array): number =>
    a.reduce((sum, value, i) => sum + value * (b[i] as number), 0);
  const less = (a: Float64Array, b: Float64Array): Float64Array => {
    const length = dot(b, b);
    const share = length > 1e-12 ? dot(a, b) / length : 0;
    return a.map((value, i) => value - share * (b[i] as number));
  };
  const centred = (list: Float64Array): Float64Array => {
    const middle = mean(list);
    return list.map((value) => value - middle);
  };
  const line = centred(times);
  const curve = less(centred(line.map((value) => value * value)), line);
  return less(less(centred(values), line), curve);
}
