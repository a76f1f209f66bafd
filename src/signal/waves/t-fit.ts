import { steps } from './grid.js';
import type { TWave } from './t-edges.js';

/** T of one beat may lie so much earlier or later than on the average; in s. */
const reach = 0.04;
/** Every second grid sample is enough. */
const stride = 2;

/** How one beat's T differs from the average T. */
export interface TFit {
  /** Later by so many samples. */
  readonly shift: number;
  /** Higher by this factor. */
  readonly scale: number;
  /** Correlation with the average T at that shift, -1 to 1; NaN where it cannot be read. */
  readonly likeness: number;
}

/** Lays the average T over the beat whose average position is `position`. */
export function fitT(
  samples: Float64Array,
  position: number,
  mean: Float64Array,
  at: number,
  t: TWave,
): TFit {
  let best: TFit = { shift: 0, scale: 1, likeness: Number.NaN };
  const size = Math.floor((t.end - t.onset) / stride) + 1;
  let shapeMean = 0;
  for (let i = 0; i < size; i++) shapeMean += mean[t.onset + i * stride]!;
  shapeMean /= size;
  let shapeEnergy = 0;
  for (let i = 0; i < size; i++) shapeEnergy += (mean[t.onset + i * stride]! - shapeMean) ** 2;
  const compareAt = (shift: number) => {
    const start = position + t.onset - at + shift;
    if (start < 0 || start + size * stride > samples.length) return;
    let sum = 0;
    let squares = 0;
    let product = 0;
    for (let i = 0; i < size; i++) {
      const x = samples[start + i * stride]!;
      sum += x;
      squares += x * x;
      product += x * (mean[t.onset + i * stride]! - shapeMean);
    }
    const energy = squares - (sum * sum) / size;
    const likeness = product / Math.sqrt(energy * shapeEnergy);
    if (likeness > best.likeness || Number.isNaN(best.likeness)) {
      best = { shift, likeness, scale: product / shapeEnergy };
    }
  };
  const most = steps(reach);
  for (let shift = -most; shift <= most; shift += 4) compareAt(shift);
  for (const step of [2, 1]) {
    const around = best.shift;
    compareAt(around - step);
    compareAt(around + step);
  }
  return best;
}
