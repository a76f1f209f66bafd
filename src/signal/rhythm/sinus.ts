import { nthSmallest } from '../filter/order-statistics.js';
import { mean } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import { type Reason, reason } from '../reason.js';
import type { Evidence } from './evidence/evidence.js';
import { type SinusProof, sinusProof } from './evidence/sinus-proof.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Intervals that vary more than this (spread about their mean) are no longer regular. Common practice. */
const REGULAR = 0.1;

/** The sinus node leads, evenly and within the range of rates. */
export const sinus: Rhythm = {
  names: ['sinus rhythm'],
  criteria: [
    'a P wave before (nearly) every QRS, at an equal PR, neither long nor short',
    'narrow QRS of one shape',
    'rate within the range',
    'RR intervals vary by less than 10 %',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof?.range) return [];
    const { range, rate } = proof;
    if (rate < range.low || rate > range.high || isIrregular(evidence)) return [];
    return [
      finding('sinus rhythm', evidence, proof.confidence, [...proof.met, regularity(evidence)], {
        range: range.used,
      }),
    ];
  },
};

/** The proof where the sinus node leads and its beats come through in time; null otherwise. */
export function sinusLed(evidence: Evidence): SinusProof | null {
  const proof = sinusProof(evidence);
  return proof.proven && !hasLongPr(evidence, proof) ? proof : null;
}

/** PR over the range by more than two readings of it differ (`equalPr`). */
export function hasLongPr({ atrial }: Evidence, { limits }: SinusProof): boolean {
  return limits !== null && atrial.pr > limits.longPr + limits.equalPr;
}

/** Intervals between neighbouring beats that the sinus node started, s; one that an early P made longer is not its own. */
function sinusIntervals({ beats, blockedEarlyP }: Evidence): number[] {
  const { ends } = blockedEarlyP();
  const intervals: number[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    const before = beats[i - 1]!;
    const beat = beats[i]!;
    if (isLed(before) && isLed(beat) && !ends.has(i)) intervals.push(beat.time - before.time);
  }
  return intervals;
}

/** By the sinus node, whether or not a branch of the bundle is blocked. */
const isLed = ({ kind }: MarkedBeat): boolean => kind === 'sinus' || kind === 'aberrant';

/** Judged without pauses, which are told on their own. */
export function isIrregular(evidence: Evidence): boolean {
  return spread(evidence) > REGULAR;
}

/** The reason of how much the intervals of a sinus rhythm vary. */
export function regularity(evidence: Evidence): Reason {
  const value = spread(evidence);
  return reason('RR varies', { share: value, limit: REGULAR });
}

/** Spread about the mean of the intervals that lie under 1.8 times the middle one. */
function spread(evidence: Evidence): number {
  const gaps = sinusIntervals(evidence);
  if (gaps.length === 0) return 0;
  const middle = nthSmallest(new Float64Array(gaps), gaps.length >> 1);
  const usual = under(PAUSE * middle, gaps);
  const middling = mean(usual);
  return Math.sqrt(squaresAbout(middling, usual) / usual.length) / middling;
}

function under(limit: number, values: readonly number[]): number[] {
  const out: number[] = [];
  for (const value of values) if (value < limit) out.push(value);
  return out;
}

function squaresAbout(middle: number, values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += (value - middle) ** 2;
  return sum;
}

/** A pause lasts this many usual intervals: nearly two, as a pause of one lost beat does. From memory, unverified. */
export const PAUSE = 1.8;
