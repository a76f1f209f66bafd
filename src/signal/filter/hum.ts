import type { Channel } from '../waveform.js';
import { isWhole } from './excerpt.js';
import { medianNear } from './order-statistics.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: the power line's, one or the other; of the harmonics the third is the strongest. */
const MAINS = [50, 60] as const;
const THIRD = 3;
/** The hum is taken to change little over this, s: whole periods of both. */
const BLOCK = 2;
/** Hum under this hides no wave, mV. */
const NO_MATTER = 0.008;
/** Every so many blocks are looked at first, in a lead of more than a few. */
const PROBED = 5;
const FEW = 60;
/** The middle size is told by half as many values, or up to so many. */
const SIZES = 400;
/** What passes this many usual deflections is a beat or a burst, not hum. */
const BEYOND = 3;

/** A sine of known frequency: a cos wt + b sin wt, mV, t counted from the first sample. */
interface Sine {
  readonly a: number;
  readonly b: number;
}

/**
 * The lead less the sine of the power line and its third harmonic, where they are found: fitted by least squares over blocks of
 * 2 s, which overlap by half, and taken off as it waxes and wanes between them. Beats hardly enter
 * the fit, as what sticks out of the usual deflections is held to their bounds; so P, QRS and T keep
 * their form, which they lose in a mean over the period. Cost linear in length.
 */
export function withoutHum(lead: Channel): Channel {
  let rest = lead;
  for (const frequency of MAINS) {
    const isOwn = rest !== lead;
    const less = without(rest, frequency, isOwn);
    if (less !== rest) rest = without(less, THIRD * frequency, true);
  }
  return rest;
}

/** The very same lead where there is no hum of that frequency. The samples of one that is our own are changed in place. */
function without(lead: Channel, frequency: number, isOwn: boolean): Channel {
  const { samples, samplingRate } = lead;
  const half = Math.round((BLOCK / 2) * samplingRate);
  const count = Math.ceil(samples.length / half);
  if (frequency >= samplingRate / 2 || samples.length < 2 * half) return lead;
  const line = new Line(samples, (2 * Math.PI * frequency) / samplingRate, half);
  // The power line does not come and go by the second: where a few blocks are without it, all are.
  if (!isAnywhere(line, count, count < FEW ? 1 : PROBED)) return lead;
  // All blocks are fitted before any of them is changed.
  for (let k = 0; k <= count; k += 1) line.sineAt(k);
  const out = isOwn ? samples : samples.slice();
  for (let k = 0; k < count; k += 1) line.takeOff(out, k);
  return { ...lead, samples: out };
}

function isAnywhere(line: Line, count: number, every: number): boolean {
  for (let k = 0; k <= count; k += every) if (!isNone(line.sineAt(k))) return true;
  return false;
}

const NONE: Sine = { a: 0, b: 0 };

const isNone = ({ a, b }: Sine): boolean => a === 0 && b === 0;

/** Cosine and sine of each sample of a block. */
interface Circle {
  readonly turn: number;
  readonly cosine: Float64Array;
  readonly sine: Float64Array;
}

/** The latest ones: all leads of a strip, and most strips, ask for the same. */
const circles: Circle[] = [];
/** The frequencies at two sampling rates. Not a clinical number. */
const KEPT = 8;

function circle(turn: number, length: number): Circle {
  const known = circles.find((one) => one.turn === turn && one.cosine.length === length);
  if (known) return known;
  const cosine = new Float64Array(length);
  const sine = new Float64Array(length);
  for (let i = 0; i < length; i += 1) {
    cosine[i] = Math.cos(turn * i);
    sine[i] = Math.sin(turn * i);
  }
  if (circles.length >= KEPT) circles.shift();
  const made = { turn, cosine, sine };
  circles.push(made);
  return made;
}

/** The power line at one frequency. Sine and cosine are worked out for one block; the others are turned onto it. */
class Line {
  readonly #cosine: Float64Array;
  readonly #sine: Float64Array;
  /** The block at hand without what is slow, and where it begins. */
  readonly #swings: Float64Array;
  #from = Number.NaN;
  /** Of each block that was asked for: some are looked at first. */
  readonly #known: (Sine | undefined)[];
  readonly #sizes = new Float64Array(SIZES);
  /** The middle size of the block that was looked at last. */
  #usual = Number.NaN;

  /** @param turn angle from sample to sample @param half of a block, in samples */
  constructor(
    private readonly samples: Float64Array,
    private readonly turn: number,
    private readonly half: number,
  ) {
    const length = 2 * half;
    this.#swings = new Float64Array(length);
    const { cosine, sine } = circle(turn, length);
    this.#cosine = cosine;
    this.#sine = sine;
    this.#known = new Array(Math.ceil(samples.length / half) + 1).fill(undefined);
  }

  /** The power line's sine in the block around the beginning of half a block, counted from the first. */
  sineAt(k: number): Sine {
    const known = this.#known[k];
    if (known) return known;
    const { half, samples } = this;
    const from = Math.min(Math.max(0, (k - 1) * half), samples.length - 2 * half);
    const sine = this.#sineFrom(from);
    this.#known[k] = sine;
    return sine;
  }

  /** The power line's sine in the block from a sample on, `NONE` where it does not matter. */
  #sineFrom(from: number): Sine {
    this.#moveTo(from);
    const swings = this.#swings;
    const usual = this.#usualSize();
    if (!(usual > 0)) return NONE;
    const { a, b, seen } = this.#fit(BEYOND * usual);
    const sine = this.#turned({ a: (2 * a) / seen, b: (2 * b) / seen }, from);
    return seen < swings.length / 2 || Math.hypot(a, b) * 2 < NO_MATTER * seen ? NONE : sine;
  }

  #moveTo(from: number): void {
    const { samples, half } = this;
    const swings = this.#swings;
    const period = Math.round((2 * Math.PI) / this.turn);
    if (from === this.#from) return;
    if (from === this.#from + half) swings.copyWithin(0, half);
    else takeOutSlow(samples, from, period, swings.subarray(0, half));
    takeOutSlow(samples, from + half, period, swings.subarray(half));
    this.#from = from;
  }

  /** Takes the sine out of half a block, as it goes over from the block before to the one after. */
  takeOff(out: Float64Array, k: number): void {
    const { half } = this;
    const from = k * half;
    const before = this.sineAt(k);
    const after = this.sineAt(k + 1);
    if (isNone(before) && isNone(after)) return;
    const first = this.#turned(before, -from);
    const last = this.#turned(after, -from);
    const cosine = this.#cosine;
    const sine = this.#sine;
    const end = Math.min(half, out.length - from);
    for (let i = 0; i < end; i += 1) {
      const part = i / half;
      const a = first.a + part * (last.a - first.a);
      const b = first.b + part * (last.b - first.b);
      out[from + i]! -= a * cosine[i]! + b * sine[i]!;
    }
  }

  /** The middle size; a few hundred values tell it as well as all. */
  #usualSize(): number {
    const values = this.#swings;
    const step = Math.max(1, Math.floor(values.length / (SIZES / 2)));
    const sizes = this.#sizes;
    let seen = 0;
    for (let i = 0; i < values.length; i += step) {
      const size = Math.abs(values[i]!);
      if (size < Number.POSITIVE_INFINITY) sizes[seen++] = size;
    }
    // It changes little from block to block.
    this.#usual = medianNear(this.#usual, sizes, seen);
    return this.#usual;
  }

  /** The swings, held to their bounds, against cosine and sine from the beginning of the block. */
  #fit(most: number): Sine & { readonly seen: number } {
    const swings = this.#swings;
    const cosine = this.#cosine;
    const sine = this.#sine;
    let a = 0;
    let b = 0;
    let seen = 0;
    for (let i = 0; i < swings.length; i += 1) {
      const swing = swings[i]!;
      if (Number.isNaN(swing)) continue;
      let held = swing;
      if (swing > most) held = most;
      if (swing < -most) held = -most;
      a += held * cosine[i]!;
      b += held * sine[i]!;
      seen += 1;
    }
    return { a, b, seen };
  }

  /** A sine counted from sample `from`, counted from the first. */
  #turned({ a, b }: Sine, from: number): Sine {
    const c = Math.cos(this.turn * from);
    const s = Math.sin(this.turn * from);
    return { a: a * c - b * s, b: a * s + b * c };
  }
}

/** The samples from `from` on less their running mean over one period of the hum, which leaves the hum as it is. */
function takeOutSlow(samples: Float64Array, from: number, period: number, out: Float64Array): void {
  const last = samples.length - 1;
  const start = from - Math.floor(period / 2);
  const end = start + out.length + period;
  if (start >= 0 && end <= samples.length && isWhole(samples, start, end)) {
    takeOutSlowOfAll(samples, from, period, out);
    return;
  }
  // Beyond either end the lead goes on as it begins or ends.
  let sum = 0;
  for (let i = start; i < start + period; i += 1) sum += samples[held(i, last)]!;
  for (let i = 0; i < out.length; i += 1) {
    out[i] = samples[from + i]! - sum / period;
    const leaving = samples[held(start + i, last)]!;
    const entering = samples[held(start + i + period, last)]!;
    sum += entering - leaving;
    // A missing sample leaves no sum to go on from.
    if (Number.isNaN(sum) && !Number.isNaN(entering)) {
      sum = 0;
      for (let k = 1; k <= period; k += 1) sum += samples[held(start + i + k, last)]!;
    }
  }
}

/** The same where no sample is missing and the mean reaches beyond neither end. */
function takeOutSlowOfAll(
  samples: Float64Array,
  from: number,
  period: number,
  out: Float64Array,
): void {
  const start = from - Math.floor(period / 2);
  let sum = 0;
  for (let i = start; i < start + period; i += 1) sum += samples[i]!;
  for (let i = 0; i < out.length; i += 1) {
    out[i] = samples[from + i]! - sum / period;
    sum += samples[start + i + period]! - samples[start + i]!;
  }
}

function held(i: number, last: number): number {
  return i < 0 ? 0 : Math.min(i, last);
}
