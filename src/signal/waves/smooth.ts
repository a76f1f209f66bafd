import { isWhole } from '../filter/excerpt.js';
import { PIECE } from '../filter/pieces.js';

/** Each sample as the mean of itself and `half` samples on either side; NaN where one of them is. `out` may be longer. */
export function boxMean(
  samples: Float64Array,
  half: number,
  out = new Float64Array(samples.length),
): Float64Array {
  out.fill(Number.NaN);
  let state = { sum: 0, held: 0 };
  const width = 2 * half + 1;
  let from = 0;
  // The first piece fills the window.
  let to = Math.min(samples.length, width);
  while (from < samples.length) {
    // Single samples are asked only where some are missing.
    state =
      state.held === width && isWhole(samples, from, to)
        ? { sum: meanOfAll(samples, half, from, to, state.sum, out), held: width }
        : meanPiece(samples, half, from, to, state, out);
    from = to;
    to = Math.min(samples.length, to + PIECE);
  }
  return out;
}

/** Where the window is full and stays so. -> its sum. */
function meanOfAll(
  samples: Float64Array,
  half: number,
  from: number,
  to: number,
  before: number,
  out: Float64Array,
): number {
  const width = 2 * half + 1;
  let sum = before;
  for (let i = from; i < to; i++) {
    sum += samples[i]!;
    sum -= samples[i - width]!;
    out[i - half] = sum / width;
  }
  return sum;
}

/** Of the window, and of how many values. */
interface Held {
  readonly sum: number;
  readonly held: number;
}

function meanPiece(
  samples: Float64Array,
  half: number,
  from: number,
  to: number,
  before: Held,
  out: Float64Array,
): Held {
  const width = 2 * half + 1;
  let { sum, held } = before;
  for (let i = from; i < to; i++) {
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
  return { sum, held };
}

/** Two box means one after the other: a triangle, of standard deviation about 0.82 (half + 0.5). */
export const smooth = (samples: Float64Array, half: number): Float64Array =>
  boxMean(boxMean(samples, half), half);
