/** One rise of a pulse wave. */
export interface Upstroke {
  /** Where it has risen by a fifth of its height, s after the first sample. */
  readonly time: number;
  /** Lowest value before it and highest value at its end, in the wave's unit. */
  readonly low: number;
  readonly high: number;
}

// The constants of this file are choices of the method, made by trial on generated waves: not clinical numbers.

/** The part of a rise that is timed, as shares of its height. */
const EARLY = 0.2;
const LATE = 0.8;
/** A slower rise between the two is a breath or a drift, s. */
const SLOWEST = 0.25;

/**
 * The rises of at least `least` (in the wave's unit) that are as steep as those of a pulse, in order of time. None is
 * told across a gap (NaN), nor where the wave begins or ends within it.
 */
export function upstrokes(samples: Float64Array, samplingRate: number, least: number): Upstroke[] {
  const found: Upstroke[] = [];
  let first = 0;
  let low = 0;
  let high = 0;
  let rising = false;
  for (let i = 0; i < samples.length; i += 1) {
    const value = samples[i]!;
    if (Number.isNaN(value)) {
      first = i + 1;
      low = first;
      rising = false;
    } else if (rising) {
      if (value > samples[high]!) high = i;
      else if (samples[high]! - value >= least) {
        if (low > first) found.push(...steep(samples, samplingRate, low, high));
        rising = false;
        low = i;
      }
    } else if (value < samples[low]!) low = i;
    else if (value - samples[low]! >= least) {
      rising = true;
      high = i;
    }
  }
  return found;
}

function steep(samples: Float64Array, samplingRate: number, from: number, to: number): Upstroke[] {
  const low = samples[from]!;
  const high = samples[to]!;
  let start = to;
  while (start > from && samples[start - 1]! >= low + EARLY * (high - low)) start -= 1;
  let end = start;
  while (end < to && samples[end]! < low + LATE * (high - low)) end += 1;
  return (end - start) / samplingRate <= SLOWEST ? [{ time: start / samplingRate, low, high }] : [];
}

/** A wave smoothed by the mean over `seconds` around each sample; NaN stays NaN. */
export function smoothed(
  samples: Float64Array,
  samplingRate: number,
  seconds: number,
): Float64Array {
  const half = Math.round((seconds * samplingRate) / 2);
  if (half === 0) return samples;
  return samples.map((value, i) => {
    if (Number.isNaN(value)) return value;
    let sum = 0;
    let count = 0;
    for (let k = Math.max(0, i - half); k <= i + half && k < samples.length; k += 1) {
      if (Number.isNaN(samples[k]!)) continue;
      sum += samples[k]!;
      count += 1;
    }
    return sum / count;
  });
}
