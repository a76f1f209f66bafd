/** Each sample as the mean of itself and `half` samples on either side; NaN where one of them is. `out` may be longer. */
export function boxMean(
  samples: Float64Array,
  half: number,
  out = new Float64Array(samples.length),
): Float64Array {
  const n = samples.length;
  out.fill(Number.NaN);
  const width = 2 * half + 1;
  let sum = 0;
  let held = 0;
  for (let i = 0; i < n; i++) {
    const x = samples[i]!;
    if (Number.isNaN(x)) {
      sum = 0;
      held = 0;
      continue;
    }
    sum += x;
    held++;
    if (held > width) {
      sum -= samples[i - width]!;
      held = width;
    }
    if (held === width) out[i - half] = sum / width;
  }
  return out;
}

/** Two box means one after the other: a triangle, of standard deviation about 0.82 (half + 0.5). */
export const smooth = (samples: Float64Array, half: number): Float64Array =>
  boxMean(boxMean(samples, half), half);
