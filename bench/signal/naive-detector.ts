/**
 * R peaks found as a textbook first shows it, each step written down plainly: wander taken out by
 * running medians of 0.2 and 0.6 s (each window sorted anew), a windowed-sinc band-pass by direct
 * convolution, slope, square, mean over 150 ms, and a threshold of half the largest value of the 5 s
 * around. It finds beats and nothing else: no quality, waves, kinds, breath or rhythm. -> s.
 */
export function naiveBeats(samples: Float64Array, rate: number): number[] {
  const wander = runningMedian(runningMedian(samples, 0.2 * rate), 0.6 * rate);
  const level = samples.map((x, i) => x - wander[i]!);
  const banded = convolved(level, bandPassTaps(5, 30, rate));
  const slopes = convolved(
    banded,
    [1, 0, -1].map((tap) => (tap * rate) / 2),
  );
  const width = Math.round(0.15 * rate);
  const means = convolved(
    slopes.map((x) => x * x),
    Array.from({ length: width }, () => 1 / width),
  );
  return peaksOver(means, banded, rate);
}

function runningMedian(samples: Float64Array, width: number): Float64Array {
  const half = Math.round(width / 2);
  return samples.map((_, i) => {
    const window = [...samples.subarray(Math.max(0, i - half), i + half + 1)];
    window.sort((a, b) => a - b);
    return window[window.length >> 1]!;
  });
}

function convolved(samples: Float64Array, taps: readonly number[]): Float64Array {
  const half = taps.length >> 1;
  return samples.map((_, i) =>
    taps.reduce((sum, tap, k) => sum + tap * (samples[i + half - k] ?? 0), 0),
  );
}

/** Half a second of the difference of two sincs under a Hamming window. */
function bandPassTaps(low: number, high: number, rate: number): number[] {
  const half = Math.round(rate / 4);
  const sinc = (cutoff: number, k: number): number =>
    k === 0 ? (2 * cutoff) / rate : Math.sin((2 * Math.PI * cutoff * k) / rate) / (Math.PI * k);
  return Array.from({ length: 2 * half + 1 }, (_, i) => {
    const k = i - half;
    const window = 0.54 + 0.46 * Math.cos((Math.PI * k) / half);
    return window * (sinc(high, k) - sinc(low, k));
  });
}

function peaksOver(means: Float64Array, banded: Float64Array, rate: number): number[] {
  const beats: number[] = [];
  const block = 5 * rate;
  let from = -1;
  let threshold = 0;
  for (let i = 0; i <= means.length; i += 1) {
    if (i % block === 0) threshold = 0.5 * Math.max(...means.subarray(i, i + block));
    const inside = i < means.length && means[i]! > threshold;
    if (inside && from < 0) from = i;
    if (inside || from < 0) continue;
    const complex = banded.subarray(from, i).map(Math.abs);
    beats.push((from + complex.indexOf(Math.max(...complex))) / rate);
    from = -1;
  }
  return beats;
}
