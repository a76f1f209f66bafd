import { quantileOfFinite } from '../filter/order-statistics.js';
import { steps } from './grid.js';
import { boxMean } from './smooth.js';

/** How long a bump is looked for; in s. */
export interface BumpSize {
  /** Its core and its flanks are means over so long. */
  readonly core: number;
  /** The flanks lie so far from the core on either side. */
  readonly flank: number;
}

/** Of a P wave, which lasts 30-50 ms: the flanks lie outside it. Own choice, not a clinical number. */
const ONE_TIP: BumpSize = { core: 0.018, flank: 0.036 };
/** Of one of two tips, which an atrium that is large or slow draws apart: the core holds both. Own choice, not a clinical number. */
export const TWO_TIPS: BumpSize = { core: 0.034, flank: 0.064 };
/** A bump falls off to both sides, by at least this share of its height to the flatter one. */
const flatterSide = 0.4;
/** ... and its core stands away from the baseline by this share of its height. */
const fromBaseline = 0.4;
/** Noise is measured over stretches this long; in s. */
const judgedOver = 10;

/**
 * How far the atrial trace rises above (or falls below) both its flanks around each sample: large at
 * a P wave, little on slopes, wander and slow waves. In mV, NaN where it cannot be read.
 */
export class Bumps {
  private readonly cores: Float64Array;
  private readonly away: number;
  private readonly levels: Float64Array;

  constructor(trace: Float64Array, { core, flank }: BumpSize = ONE_TIP) {
    this.away = steps(flank);
    this.cores = boxMean(trace, steps((core - 0.002) / 2));
    const size = steps(judgedOver);
    this.levels = new Float64Array(Math.max(1, Math.ceil(trace.length / size)));
    const part = new Float64Array(Math.ceil(size / 8));
    for (let k = 0; k < this.levels.length; k++) this.levels[k] = this.levelFrom(k * size, part);
  }

  /** Spread of the heights from a sample on; `part` is laid out here. */
  private levelFrom(from: number, part: Float64Array): number {
    for (let i = 0; i < part.length; i++) part[i] = Math.abs(this.heightAt(from + i * 8));
    // Three in ten values of Gaussian noise lie within 0.3853 standard deviations. The lower part
    // of the values is asked because P waves are in the upper.
    return quantileOfFinite(part, 0.3) / 0.3853;
  }

  /** Of the bump at a sample; NaN beyond the ends. */
  heightAt(i: number): number {
    const { cores, away } = this;
    if (!(i >= away && i + away < cores.length)) return Number.NaN;
    return overFlanks(cores, i, away);
  }

  /** Adds the heights that can be read from a sample on to the sums from place `first` to `end` (excluded), and counts them. */
  addHeights(
    from: number,
    first: number,
    end: number,
    sums: Float64Array,
    counts: Uint16Array,
  ): void {
    const { cores, away } = this;
    const last = Math.min(end, cores.length - away - from);
    for (let k = Math.max(first, away - from); k < last; k++) {
      const i = from + k;
      const height = overFlanks(cores, i, away);
      if (Number.isNaN(height)) continue;
      sums[k]! += height;
      counts[k]! += 1;
    }
  }

  /** Samples of the trace. */
  get length(): number {
    return this.cores.length;
  }

  /** Spread of the heights around a sample; P waves enlarge it where they fill much of the time. */
  spreadAt(i: number): number {
    const k = Math.min(this.levels.length - 1, Math.max(0, Math.floor(i / steps(judgedOver))));
    return this.levels[k]!;
  }

  /**
   * Whether the bump at the sample is a wave of its own: it falls off on both sides, and stands away
   * from the baseline (between two waves there is a bump as well, of the other sign).
   */
  isWave(i: number): boolean {
    const { cores, away } = this;
    const height = this.heightAt(i);
    if (!(cores[i]! / height >= fromBaseline)) return false;
    const left = cores[i]! - cores[i - away]!;
    const right = cores[i]! - cores[i + away]!;
    return Math.min(left / height, right / height) >= flatterSide;
  }

  /** The position from `from` to `to` where the bump of the sign is highest; -1 where none is read. */
  highest(from: number, to: number, sign: number): number {
    const { cores, away } = this;
    const end = Math.min(cores.length - 1 - away, to);
    let best = -1;
    let most = Number.NEGATIVE_INFINITY;
    for (let i = Math.max(away, from); i <= end; i++) {
      const height = sign * overFlanks(cores, i, away);
      if (height > most) {
        most = height;
        best = i;
      }
    }
    return best;
  }

  /** Local tips of the sign within from..to that are higher than `least` and fall off on both sides. */
  tips(from: number, to: number, sign: number, least: number): number[] {
    const { cores, away } = this;
    const found: number[] = [];
    // A tip is known by its neighbours, which must be read as well. All places are whole; `| 0` says so to the compiler.
    const start = Math.max(away + 1, from) | 0;
    const end = Math.min(cores.length - away - 2, to) | 0;
    if (start > end) return found;
    let h = sign * overFlanks(cores, start - 1, away);
    let next = sign * overFlanks(cores, start, away);
    for (let i = start; i <= end; i++) {
      const before = h;
      h = next;
      next = sign * overFlanks(cores, i + 1, away);
      if (h < least || !(h >= before && h > next) || !this.isWave(i)) continue;
      const last = found.at(-1);
      // Two tips within one P wave's length are one P.
      if (last !== undefined && i - last < this.away) {
        if (h > sign * this.heightAt(last)) found[found.length - 1] = i;
      } else {
        found.push(i);
      }
    }
    return found;
  }
}

/** How far a core rises above the mean of its flanks; both must lie within the trace. */
const overFlanks = (cores: Float64Array, i: number, away: number): number =>
  cores[i]! - 0.5 * (cores[i - away]! + cores[i + away]!);
