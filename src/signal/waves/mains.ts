import { medianOfFinite } from '../filter/order-statistics.js';
import { pieces } from '../filter/pieces.js';
import { gridRate, steps } from './grid.js';

/** Power-line frequencies of the world; in Hz. */
const lines = [50, 60] as const;
/** Below this height power-line hum does not hinder; in mV. */
const hindering = 0.004;
/** The hum is measured over this long around each sample; in s. */
const measuredOver = 1;
/** Samples this near to an R peak say nothing about hum; in s. */
const awayFromBeat = 0.05;
/** Both frequencies repeat after this many grid steps (0.1 s). */
const repeat = 50;

/**
 * Takes the power-line hum out of a lead, in place. For each sample a sine of the line frequency is
 * fitted to the second around it, by its correlation with sine and cosine there, and subtracted.
 * The QRS is left out of the fit, so that it neither rings nor loses height, as it would in a notch
 * filter. `samples` in mV on the grid, `beats` grid positions in ascending order.
 */
export function takeOutHum(samples: Float64Array, beats: readonly number[]): void {
  const quiet = awayFromBeats(samples.length, beats);
  for (const frequency of lines) {
    const hum = new Hum(samples, quiet, frequency);
    if (hum.usualHeight() > hindering) hum.subtract();
  }
}

function awayFromBeats(length: number, beats: readonly number[]): Uint8Array {
  const quiet = new Uint8Array(length).fill(1);
  const near = steps(awayFromBeat);
  for (const beat of beats) quiet.fill(0, Math.max(0, beat - near), Math.max(0, beat + near + 1));
  return quiet;
}

/** Correlation with cosine and sine over the second at hand, and how many samples of it count. */
interface Fit {
  readonly c: number;
  readonly s: number;
  readonly count: number;
}

class Hum {
  /** Twice over, so that a place in a period may be moved on by any other. */
  private readonly cosine = new Float64Array(2 * repeat);
  private readonly sine = new Float64Array(2 * repeat);
  /** About half a period: a sample less the mean of those so far away holds hum but no slope. */
  private readonly half: number;
  /** How much that difference enlarges the hum. */
  private readonly gain: number;

  constructor(
    private readonly samples: Float64Array,
    private readonly quiet: Uint8Array,
    frequency: number,
  ) {
    const step = (2 * Math.PI * frequency) / gridRate;
    for (let i = 0; i < repeat; i++) {
      this.cosine[i] = Math.cos(step * i);
      this.sine[i] = Math.sin(step * i);
    }
    this.cosine.copyWithin(repeat, 0);
    this.sine.copyWithin(repeat, 0);
    this.half = Math.round(Math.PI / step);
    this.gain = 1 - Math.cos(step * this.half);
  }

  /** The middle height over up to 40 seconds spread over the lead, mV. */
  usualHeight(): number {
    const long = steps(measuredOver);
    const stride = Math.max(long, Math.floor(this.samples.length / 40));
    const heights: number[] = [];
    for (let from = 0; from + long <= this.samples.length; from += stride) {
      const height = this.heightFrom(from, long);
      if (height !== null) heights.push(height);
    }
    return medianOfFinite(heights);
  }

  /** Over so many samples; null where too few of them count. */
  private heightFrom(from: number, length: number): number | null {
    let c = 0;
    let s = 0;
    let n = 0;
    for (let i = from; i < from + length; i++) {
      const x = this.bare(i);
      if (Number.isNaN(x)) continue;
      c += x * this.cosine[i % repeat]!;
      s += x * this.sine[i % repeat]!;
      n++;
    }
    return n > length / 4 ? (2 * Math.hypot(c, s)) / (n * this.gain) : null;
  }

  subtract(): void {
    const reach = steps(measuredOver / 2);
    const second = new Float64Array(2 * reach + 1).fill(Number.NaN);
    let fit = { c: 0, s: 0, count: 0 };
    for (const [from, to] of pieces(this.samples.length + reach)) {
      fit = this.subtractPiece(second, reach, from, to, fit);
    }
  }

  /** Samples from `from` to `to` enter the second that is fitted, each in the place of the one that leaves it. */
  private subtractPiece(
    second: Float64Array,
    reach: number,
    from: number,
    to: number,
    before: Fit,
  ): Fit {
    const { samples, cosine, sine } = this;
    const { length } = second;
    let { c, s, count } = before;
    let place = (from - 1) % length;
    // The place in a period of what enters; that of what leaves and of the middle between them lie so much further on.
    let phase = from % repeat;
    const leaves = repeat - (length % repeat);
    const middle = repeat - (reach % repeat);
    for (let entering = from; entering < to; entering++) {
      place = place + 1 < length ? place + 1 : 0;
      const leaving = second[place]!;
      // What is taken off lies `reach` behind, too far to touch what enters.
      const x = this.bare(entering);
      second[place] = x;
      if (!Number.isNaN(x)) {
        c += x * cosine[phase]!;
        s += x * sine[phase]!;
        count++;
      }
      if (!Number.isNaN(leaving)) {
        c -= leaving * cosine[phase + leaves]!;
        s -= leaving * sine[phase + leaves]!;
        count--;
      }
      const centre = entering - reach;
      if (centre >= 0 && count >= reach / 4) {
        const scale = 2 / (count * this.gain);
        samples[centre]! -= scale * (c * cosine[phase + middle]! + s * sine[phase + middle]!);
      }
      phase = phase + 1 < repeat ? phase + 1 : 0;
    }
    return { c, s, count };
  }

  /** Without slow parts; NaN near a beat, at the ends and where the lead cannot be read. */
  private bare(i: number): number {
    const { samples, half } = this;
    if (i < half || i + half >= samples.length || this.quiet[i] === 0) return Number.NaN;
    return samples[i]! - 0.5 * (samples[i - half]! + samples[i + half]!);
  }
}
