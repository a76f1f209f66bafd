import { bandPass } from '../../src/signal/filter/zero-phase.js';

/**
 * An independent R-peak finder of another kind, to compare with: two moving averages of the squared
 * 8-20 Hz signal, one of about a QRS and one of about a beat; where the short one exceeds the long
 * one plus 8 % of the overall mean for at least a QRS length, the largest value is the R. After
 * Elgendi M (2013), Fast QRS detection with an optimized knowledge base, PLoS ONE 8(9):e73557
 * (constants 97 ms, 611 ms, 8 % from memory, unverified). Human hearts only. No NaN. -> s.
 */
export function beatsByTwoAverages(samples: Float64Array, rate: number): number[] {
  const banded = bandPass(samples, rate, 8, 20);
  const squared = banded.map((x) => x * x);
  const short = movingMean(squared, Math.round(0.097 * rate));
  const long = movingMean(squared, Math.round(0.611 * rate));
  const offset = 0.08 * (squared.reduce((sum, x) => sum + x, 0) / squared.length);
  const beats: number[] = [];
  let from = -1;
  for (let i = 0; i <= squared.length; i++) {
    const inside = i < squared.length && short[i]! > long[i]! + offset;
    if (inside && from < 0) from = i;
    if (!inside && from >= 0) {
      if (i - from >= 0.097 * rate) {
        let best = from;
        for (let j = from; j < i; j++) {
          if (Math.abs(banded[j]!) > Math.abs(banded[best]!)) best = j;
        }
        const time = best / rate;
        if (beats.length === 0 || time - beats.at(-1)! > 0.3) beats.push(time);
      }
      from = -1;
    }
  }
  return beats;
}

function movingMean(values: Float64Array, width: number): Float64Array {
  const out = new Float64Array(values.length);
  const half = width >> 1;
  let sum = 0;
  for (let i = -half; i < values.length; i++) {
    sum += values[i + half] ?? 0;
    sum -= values[i - half - 1] ?? 0;
    if (i >= 0) out[i] = sum / (2 * half + 1);
  }
  return out;
}
