import { pieces } from './pieces.js';

/**
 * The same signal at another rate, sample j at j/`to` seconds. Towards a lower rate each new sample
 * is the mean of the old signal over its own period (each old sample standing for one old period);
 * towards a higher rate it is read from the straight line between its neighbours. A new sample that
 * would rest on a NaN is NaN. Rates in Hz, unit unchanged.
 */
export function resample(samples: Float64Array, from: number, to: number): Float64Array {
  if (from === to || samples.length === 0) return samples.slice();
  const length = Math.floor(((samples.length - 1) * to) / from + 1e-9) + 1;
  return from > to
    ? meanOverPeriods(samples, from / to, length)
    : alongStraightLines(samples, from / to, length);
}

function meanOverPeriods(samples: Float64Array, stride: number, length: number): Float64Array {
  const out = new Float64Array(length);
  const within = stride % 2 === 0 ? meanOfWhole : meanPiece;
  for (const [from, to] of pieces(length)) {
    const isWithin = from > 0 && (to - 0.5) * stride < samples.length - 1;
    (isWithin ? within : meanPiece)(samples, stride, from, to, out);
  }
  return out;
}

/** The same away from either end where a period is a whole, even number of old ones: half of the first and the last count. */
function meanOfWhole(
  samples: Float64Array,
  stride: number,
  from: number,
  to: number,
  out: Float64Array,
): void {
  for (let j = from; j < to; j++) {
    const first = j * stride - stride / 2;
    const final = first + stride;
    let sum = samples[first]! * 0.5 + samples[final]! * 0.5;
    for (let i = first + 1; i < final; i++) sum += samples[i]!;
    out[j] = sum / stride;
  }
}

function meanPiece(
  samples: Float64Array,
  stride: number,
  from: number,
  to: number,
  out: Float64Array,
): void {
  const last = samples.length - 1;
  for (let j = from; j < to; j++) {
    // Old sample i covers i - 0.5 .. i + 0.5; this new one covers `start` .. `end` on that scale.
    const start = Math.max(-0.5, (j - 0.5) * stride);
    const end = Math.min(last + 0.5, (j + 0.5) * stride);
    const first = Math.floor(start + 0.5);
    const final = Math.min(last, Math.ceil(end + 0.5) - 1);
    if (first >= final) {
      out[j] = samples[final]!;
      continue;
    }
    let sum = samples[first]! * (first + 0.5 - start) + samples[final]! * (end - final + 0.5);
    for (let i = first + 1; i < final; i++) sum += samples[i]!;
    out[j] = sum / (end - start);
  }
}

function alongStraightLines(samples: Float64Array, stride: number, length: number): Float64Array {
  const out = new Float64Array(length);
  for (let j = 0; j < length; j++) {
    const at = j * stride;
    const left = Math.min(samples.length - 1, Math.floor(at));
    const share = at - left;
    const right = Math.min(samples.length - 1, left + 1);
    out[j] = share < 1e-9 ? samples[left]! : samples[left]! * (1 - share) + samples[right]! * share;
  }
  return out;
}
