import type { Channel } from '../waveform.js';
import { medianOfFinite, quantileOfFinite } from './order-statistics.js';
import { median } from './spread.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A jump is over within twice this, s. */
const HALF_JUMP = 0.02;
/** It stays for as long, s: a wide QRS, or half a wave of ventricles that flutter, is over by then. */
const STAYS = 0.2;
/** For so much of that the trace stays beyond the middle of the jump: a QRS beside it takes the rest. */
const STAYING = 0.85;
/** So much of all that the trace does meanwhile, but for its outermost tenths, is the jump: a T takes longer. */
const OF_ALL = 0.75;
const TENTH = 0.1;
/** On one side at least the trace rests: but for its outermost tenths it moves by less than this share of the jump. */
const AT_REST = 0.25;
/** So much of the jump is left of the way from one side to the other, less what the trace was going anyway: R and S on a slope leave nothing. */
const BEYOND_SLOPE = 0.6;
/** Less of a jump is taken for no beat: as a share of what the trace usually moves by over so many s, and in mV. */
const OF_USUAL = 0.3;
const USUAL_OVER = 2;
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
  const least = Math.max(
    LEAST,
    OF_USUAL * usualRange(samples, Math.round(USUAL_OVER * samplingRate)),
  );
  const jumps = jumpsOf(samples, half, stays, least);
  return jumps.length === 0 ? lead : { ...lead, samples: laidTogether(samples, jumps) };
}

/** From the last sample before a jump to the first after it. */
interface Jump {
  readonly from: number;
  readonly to: number;
}

/** From the lowest to the highest value of a stretch of so many samples, the middle one of all stretches; 0 for none. */
function usualRange(samples: Float64Array, length: number): number {
  const ranges: number[] = [];
  for (let from = 0; from + length <= samples.length; from += length) {
    ranges.push(rangeOf(samples, from, from + length));
  }
  return ranges.length > 0 ? median(ranges) : 0;
}

function rangeOf(samples: Float64Array, from: number, end: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = from; i < end; i++) {
    const x = samples[i]!;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  return high > low ? high - low : 0;
}

function jumpsOf(samples: Float64Array, half: number, stays: number, least: number): Jump[] {
  const jumps: Jump[] = [];
  const end = samples.length - stays;
  let next = Math.max(half, stays);
  for (let i = next; i < end; i++) {
    const rise = samples[i + half]! - samples[i - half]!;
    if (!(Math.abs(rise) >= least) || i < next || !isSteepest(samples, i, half)) continue;
    if (!isStaying(samples, i, half, stays)) continue;
    if (!isAlone(samples, i, half, stays) || !isBeyondSlope(samples, i, half, stays)) continue;
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

/** Whether there is little but the jump, and nothing else on one side of it. */
function isAlone(samples: Float64Array, at: number, half: number, stays: number): boolean {
  const rise = Math.abs(samples[at + half]! - samples[at - half]!);
  const before = moves(samples, at - stays, at - half);
  const after = moves(samples, at + half, at + stays);
  return (
    rise >= OF_ALL * moves(samples, at - stays, at + stays) &&
    Math.min(before, after) <= AT_REST * rise
  );
}

/** How far the trace goes, but for its outermost tenths. */
function moves(samples: Float64Array, from: number, end: number): number {
  const part = samples.subarray(from, end);
  return quantileOfFinite(part, 1 - TENTH) - quantileOfFinite(part, TENTH);
}

/** Whether it leads further than the trace was going before and goes on afterwards. */
function isBeyondSlope(samples: Float64Array, at: number, half: number, stays: number): boolean {
  const rise = samples[at + half]! - samples[at - half]!;
  const part = (stays - half) >> 1;
  const level = (from: number): number => medianOfFinite(samples.subarray(from, from + part));
  const before = [level(at - stays), level(at - half - part)] as const;
  const after = [level(at + half), level(at + stays - part)] as const;
  const way = (after[0] + after[1] - before[0] - before[1]) / 2;
  const slope = (before[1] - before[0] + after[1] - after[0]) / 2;
  return (way - (slope * (stays + half)) / part) / rise >= BEYOND_SLOPE;
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
