import type { Channel } from '../waveform.js';
import { quantileOfFinite } from './order-statistics.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A jump is over within twice this, s. */
const HALF_JUMP = 0.02;
/** It stays for as long, s: a wide QRS, or half a wave of ventricles that flutter, is over by then. */
const STAYS = 0.2;
/** For so much of that the trace stays beyond the middle of the jump: a QRS beside it takes the rest. */
const STAYING = 0.85;
/** So much of all that the trace does meanwhile, but for its outermost tenths, is the jump: a T or wander takes longer. */
const MOST = 0.75;
const TENTH = 0.1;
/** Less of a jump is no hindrance, mV. */
const LEAST = 0.1;
/** The part of a jump that is drawn flat holds so much of it. */
const WHOLE = 0.9;

/**
 * The lead less its jumps, as when an electrode shifts on the skin: the trace is elsewhere from one moment to the next and
 * does not come back at once, which no wave of the heart does. What follows a jump is laid where the trace was before it;
 * the way back, which takes a second or so, is left as wander. The same lead where there is none.
 */
export function withoutJumps(lead: Channel): Channel {
  const { samples, samplingRate } = lead;
  const half = Math.max(1, Math.round(HALF_JUMP * samplingRate));
  const stays = Math.round(STAYS * samplingRate);
  const jumps = jumpsOf(samples, half, stays);
  return jumps.length === 0 ? lead : { ...lead, samples: laidTogether(samples, jumps) };
}

/** From the last sample before a jump to the first after it. */
interface Jump {
  readonly from: number;
  readonly to: number;
}

function jumpsOf(samples: Float64Array, half: number, stays: number): Jump[] {
  const jumps: Jump[] = [];
  const end = samples.length - stays;
  let next = Math.max(half, stays);
  for (let i = next; i < end; i++) {
    const rise = samples[i + half]! - samples[i - half]!;
    if (!(Math.abs(rise) >= LEAST) || i < next || !isSteepest(samples, i, half)) continue;
    if (!isStaying(samples, i, half, stays)) continue;
    const around = samples.subarray(i - stays, i + stays);
    const most = quantileOfFinite(around, 1 - TENTH) - quantileOfFinite(around, TENTH);
    if (!(Math.abs(rise) >= MOST * most)) continue;
    jumps.push(shortest(samples, i, half));
    next = i + 2 * half;
  }
  return jumps;
}

/** Whether the trace changes nowhere near by more in as long. */
function isSteepest(samples: Float64Array, at: number, half: number): boolean {
  const most = Math.abs(samples[at + half]! - samples[at - half]!);
  const first = Math.max(half, at - half);
  const last = Math.min(samples.length - 1 - half, at + half);
  for (let i = first; i <= last; i++) {
    if (Math.abs(samples[i + half]! - samples[i - half]!) > most) return false;
  }
  return true;
}

/** Whether the trace is on one side of the middle of the jump before it, and on the other after it. */
function isStaying(samples: Float64Array, at: number, half: number, stays: number): boolean {
  const from = samples[at - half]!;
  const to = samples[at + half]!;
  const middle = (from + to) / 2;
  const sign = Math.sign(to - from);
  let before = 0;
  let after = 0;
  for (let i = half; i < stays; i++) {
    if (sign * (samples[at - i]! - middle) < 0) before++;
    if (sign * (samples[at + i]! - middle) > 0) after++;
  }
  return Math.min(before, after) >= STAYING * (stays - half);
}

/** The shortest part of the jump around a sample that holds nearly all of it: what lies beside that is ECG. */
function shortest(samples: Float64Array, at: number, half: number): Jump {
  const whole = WHOLE * Math.abs(samples[at + half]! - samples[at - half]!);
  for (let length = 1; length < 2 * half; length++) {
    for (let from = at - half; from + length <= at + half; from++) {
      if (Math.abs(samples[from + length]! - samples[from]!) >= whole) {
        return { from, to: from + length };
      }
    }
  }
  return { from: at - half, to: at + half };
}

function laidTogether(samples: Float64Array, jumps: readonly Jump[]): Float64Array {
  const out = samples.slice();
  let away = 0;
  for (let k = 0; k < jumps.length; k++) {
    const { from, to } = jumps[k]!;
    const level = out[from]!;
    away += samples[to]! - samples[from]!;
    out.fill(level, from, to);
    const end = jumps[k + 1]?.to ?? samples.length;
    for (let i = to; i < end; i++) out[i] = samples[i]! - away;
  }
  return out;
}
