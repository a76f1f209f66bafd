import { pieces } from './pieces.js';

/**
 * Second-order section, H(z) = (b0 + b1 z^-1 + b2 z^-2) / (1 + a1 z^-1 + a2 z^-2).
 */
export interface Biquad {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * Butterworth low-pass of even `order`, as second-order sections. Each pair of poles of the analogue
 * prototype, 1 / (s² + d·s + 1) with d = 2 sin(π(2k+1)/(2·order)), is taken to the z-plane by the
 * bilinear transform s = (1/K)(1 - z^-1)/(1 + z^-1), K = tan(π·cutoff/rate), which puts the -3 dB
 * point exactly on the cutoff: |H(f)|² = 1 / (1 + (tan(π·f/rate)/K)^(2·order)). `cutoff` and `rate`
 * in Hz, 0 < cutoff < rate/2.
 */
export function butterworthLowPass(order: 2 | 4, cutoff: number, rate: number): Biquad[] {
  return polePairs(order, cutoff, rate).map(({ k, norm, a1, a2 }) => {
    const b0 = k * k * norm;
    return { b0, b1: 2 * b0, b2: b0, a1, a2 };
  });
}

/** Butterworth high-pass: the low-pass above with s replaced by 1/s. */
export function butterworthHighPass(order: 2 | 4, cutoff: number, rate: number): Biquad[] {
  return polePairs(order, cutoff, rate).map(({ norm, a1, a2 }) => {
    return { b0: norm, b1: -2 * norm, b2: norm, a1, a2 };
  });
}

function polePairs(order: 2 | 4, cutoff: number, rate: number) {
  if (!(cutoff > 0 && cutoff < rate / 2)) {
    throw new RangeError(`a cutoff of ${cutoff} Hz does not lie between 0 and half of ${rate} Hz`);
  }
  const k = Math.tan((Math.PI * cutoff) / rate);
  return Array.from({ length: order / 2 }, (_, pair) => {
    const d = 2 * Math.sin((Math.PI * (2 * pair + 1)) / (2 * order));
    const norm = 1 / (1 + d * k + k * k);
    return { k, norm, a1: 2 * (k * k - 1) * norm, a2: (1 - d * k + k * k) * norm };
  });
}

/**
 * Runs the section over `samples` in place, forwards (`step` 1) or backwards (`step` -1), started
 * as if the first value had been there for ever, so that a constant offset causes no transient.
 */
export function runThrough(section: Biquad, samples: Float64Array, step: 1 | -1): void {
  const n = samples.length;
  if (n === 0) return;
  const state = new Float64Array(2);
  settle(section, samples[step === 1 ? 0 : n - 1]!, state, 0);
  for (const [from, to] of pieces(n)) {
    if (step === 1) runPiece(section, samples, from, to, 1, state);
    else runPiece(section, samples, n - 1 - from, n - 1 - to, -1, state);
  }
}

/**
 * Two sections over two arrays of equal length at once, each as `runThrough` does. Every output waits for the one
 * before it: a processor has the time for both.
 */
export function runBothThrough(
  [section, other]: readonly [Biquad, Biquad],
  samples: Float64Array,
  others: Float64Array,
  step: 1 | -1,
): void {
  const n = samples.length;
  if (n === 0) return;
  const start = step === 1 ? 0 : n - 1;
  const state = new Float64Array(4);
  settle(section, samples[start]!, state, 0);
  settle(other, others[start]!, state, 2);
  for (const [from, to] of pieces(n)) {
    const first = step === 1 ? from : n - 1 - from;
    runBothPieces(section, other, samples, others, first, to - from, step, state);
  }
}

/** Lays the steady state for a constant input `first` into `state` (transposed direct form II). */
function settle(
  { b0, b1, b2, a1, a2 }: Biquad,
  first: number,
  state: Float64Array,
  at: number,
): void {
  const settled = ((b0 + b1 + b2) / (1 + a1 + a2)) * first;
  state[at + 1] = b2 * first - a2 * settled;
  state[at] = b1 * first - a1 * settled + state[at + 1]!;
}

/** `count` places from `first` on; `state` goes on from piece to piece. */
function runBothPieces(
  { b0, b1, b2, a1, a2 }: Biquad,
  { b0: c0, b1: c1, b2: c2, a1: d1, a2: d2 }: Biquad,
  samples: Float64Array,
  others: Float64Array,
  first: number,
  count: number,
  step: 1 | -1,
  state: Float64Array,
): void {
  let s1 = state[0]!;
  let s2 = state[1]!;
  let t1 = state[2]!;
  let t2 = state[3]!;
  for (let k = 0, i = first; k < count; k += 1, i += step) {
    const x = samples[i]!;
    const y = b0 * x + s1;
    s1 = b1 * x - a1 * y + s2;
    s2 = b2 * x - a2 * y;
    samples[i] = y;
    const v = others[i]!;
    const w = c0 * v + t1;
    t1 = c1 * v - d1 * w + t2;
    t2 = c2 * v - d2 * w;
    others[i] = w;
  }
  state[0] = s1;
  state[1] = s2;
  state[2] = t1;
  state[3] = t2;
}

/** From place `from` on, up to `to` (excluded); `state` goes on from piece to piece. */
function runPiece(
  { b0, b1, b2, a1, a2 }: Biquad,
  samples: Float64Array,
  from: number,
  to: number,
  step: 1 | -1,
  state: Float64Array,
): void {
  let s1 = state[0]!;
  let s2 = state[1]!;
  for (let i = from; i !== to; i += step) {
    const x = samples[i]!;
    const y = b0 * x + s1;
    s1 = b1 * x - a1 * y + s2;
    s2 = b2 * x - a2 * y;
    samples[i] = y;
  }
  state[0] = s1;
  state[1] = s2;
}
