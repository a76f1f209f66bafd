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

/** The average T of a group, made ready to be laid over single beats. */
export class TShape {
  /** Every `stride`-th sample of T, less their mean. */
  private readonly shape: Float64Array;
  private readonly energy: number;

  /** @param at the place in `mean` that lies on a beat's position */
  constructor(
    mean: Float64Array,
    private readonly at: number,
    private readonly t: TWave,
  ) {
    this.shape = new Float64Array(Math.floor((t.end - t.onset) / stride) + 1);
    const { shape } = this;
    let sum = 0;
    for (let i = 0; i < shape.length; i++) sum += mean[t.onset + i * stride]!;
    const middle = sum / shape.length;
    let energy = 0;
    for (let i = 0; i < shape.length; i++) {
      const away = mean[t.onset + i * stride]! - middle;
      shape[i] = away;
      energy += away * away;
    }
    this.energy = energy;
  }

  /** Lays T over the beat at `position`. */
  fit(samples: Float64Array, position: number): TFit {
    // Whole, as are all places of marks; `| 0` says so to the compiler.
    const start = (position + this.t.onset - this.at) | 0;
    const most = steps(reach);
    let best = 0;
    let likeness = Number.NaN;
    for (let shift = -most; shift <= most; shift += 4) {
      const here = this.likeness(samples, start + shift);
      if (!isMore(here, likeness)) continue;
      likeness = here;
      best = shift;
    }
    for (let step = 2; step >= 1; step--) {
      const around = best;
      for (let shift = around - step; shift <= around + step; shift += 2 * step) {
        const here = this.likeness(samples, start + shift);
        if (!isMore(here, likeness)) continue;
        likeness = here;
        best = shift;
      }
    }
    const scale = Number.isNaN(likeness) ? 1 : this.product(samples, start + best) / this.energy;
    return { shift: best, scale, likeness };
  }

  /** Correlation with the samples from `start` on; NaN where they are missing. */
  private likeness(samples: Float64Array, start: number): number {
    const { shape } = this;
    const size = shape.length;
    if (start < 0 || start + size * stride > samples.length) return Number.NaN;
    let sum = 0;
    let squares = 0;
    let product = 0;
    for (let i = 0; i < size; i++) {
      const x = samples[start + i * stride]!;
      sum += x;
      squares += x * x;
      product += x * shape[i]!;
    }
    const own = squares - (sum * sum) / size;
    return product / Math.sqrt(own * this.energy);
  }

  private product(samples: Float64Array, start: number): number {
    const { shape } = this;
    let product = 0;
    for (let i = 0; i < shape.length; i++) product += samples[start + i * stride]! * shape[i]!;
    return product;
  }
}

/** Whether a likeness is more than another, or the first that could be read. */
const isMore = (here: number, than: number): boolean =>
  here > than || (Number.isNaN(than) && !Number.isNaN(here));
