import type { Channel } from '../waveform.js';
import { median } from './spread.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: the power line's, one or the other; of the harmonics the third is the strongest. */
const MAINS = [50, 60] as const;
const THIRD = 3;
/** The hum is taken to change little over this, s: whole periods of both. */
const BLOCK = 2;
/** Hum under this hides no wave, mV. */
const NO_MATTER = 0.008;
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
  return MAINS.reduce((rest, frequency) => {
    const less = without(rest, frequency);
    return less === rest ? rest : without(less, THIRD * frequency);
  }, lead);
}

function without(lead: Channel, frequency: number): Channel {
  const { samples, samplingRate } = lead;
  const half = Math.round((BLOCK / 2) * samplingRate);
  const count = Math.ceil(samples.length / half);
  if (frequency >= samplingRate / 2 || samples.length < 2 * half) return lead;
  const turn = (2 * Math.PI * frequency) / samplingRate;
  const sines = Array.from({ length: count + 1 }, (_, k) => {
    const from = Math.min(Math.max(0, (k - 1) * half), samples.length - 2 * half);
    return sineIn(samples, from, from + 2 * half, turn);
  });
  if (sines.every(isNone)) return lead;
  const out = samples.slice();
  for (let k = 0; k < count; k += 1) takeOff(out, k * half, half, turn, sines[k]!, sines[k + 1]!);
  return { ...lead, samples: out };
}

const NONE: Sine = { a: 0, b: 0 };

const isNone = ({ a, b }: Sine): boolean => a === 0 && b === 0;

/** The power line's sine in a block, `NONE` where it does not matter. */
function sineIn(samples: Float64Array, from: number, to: number, turn: number): Sine {
  const swings = withoutSlow(samples, from, to, Math.round((2 * Math.PI) / turn));
  const usual = median(everyFew(swings).map(Math.abs));
  if (!(usual > 0)) return NONE;
  const most = BEYOND * usual;
  let a = 0;
  let b = 0;
  let seen = 0;
  for (const [i, value] of swings.entries()) {
    if (Number.isNaN(value)) continue;
    const held = Math.min(most, Math.max(-most, value));
    a += held * Math.cos(turn * (from + i));
    b += held * Math.sin(turn * (from + i));
    seen += 1;
  }
  const sine = { a: (2 * a) / seen, b: (2 * b) / seen };
  return seen < swings.length / 2 || Math.hypot(sine.a, sine.b) < NO_MATTER ? NONE : sine;
}

/** The stretch less its running mean over one period of the hum, which leaves the hum as it is. */
function withoutSlow(
  samples: Float64Array,
  from: number,
  to: number,
  period: number,
): Float64Array {
  const out = new Float64Array(to - from);
  const before = Math.floor(period / 2);
  const at = (i: number): number => samples[Math.min(samples.length - 1, Math.max(0, i))]!;
  let sum = 0;
  let missing = 0;
  const count = (i: number, sign: 1 | -1): void => {
    const value = at(i);
    if (Number.isNaN(value)) missing += sign;
    else sum += sign * value;
  };
  for (let i = from - before; i < from - before + period; i += 1) count(i, 1);
  for (let i = from; i < to; i += 1) {
    out[i - from] = missing > 0 ? Number.NaN : samples[i]! - sum / period;
    count(i - before, -1);
    count(i - before + period, 1);
  }
  return out;
}

/** A few hundred tell the middle as well as all. */
function everyFew(values: Float64Array): number[] {
  const step = Math.max(1, Math.floor(values.length / 200));
  const out: number[] = [];
  for (let i = 0; i < values.length; i += step) {
    if (!Number.isNaN(values[i]!)) out.push(values[i]!);
  }
  return out;
}

function takeOff(
  out: Float64Array,
  from: number,
  length: number,
  turn: number,
  before: Sine,
  after: Sine,
): void {
  if (isNone(before) && isNone(after)) return;
  const to = Math.min(out.length, from + length);
  for (let i = from; i < to; i += 1) {
    const part = (i - from) / length;
    const a = before.a + part * (after.a - before.a);
    const b = before.b + part * (after.b - before.b);
    out[i]! -= a * Math.cos(turn * i) + b * Math.sin(turn * i);
  }
}
