import type { Seconds } from '../../units/brands.js';
import { shapeFamilies } from '../beats/families.js';
import { prOf } from '../beats/leading-p.js';
import { median, share } from '../filter/spread.js';
import type { MarkedBeat, Patient } from '../marked-beat.js';
import { type Reason, reason } from '../reason.js';
import type { Channel } from '../waveform.js';
import { EQUAL_PR } from './interval-limits.js';
import { type Finding, finding, type RulingName } from './rhythm.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A stretch that bears a name, and one close to it that holds too few beats to prove any. */
export interface Stretch {
  readonly from: Seconds;
  readonly to: Seconds;
  readonly beats: readonly MarkedBeat[];
}

/** Rhythms that each single beat shows: only these go on from one stretch to the next. */
const CARRIED: readonly RulingName[] = [
  'sinus rhythm',
  'sinus bradycardia',
  'sinus tachycardia',
  'first-degree atrioventricular block',
];

/** Seconds between the two: the heart had no time to be another. */
const NEAR = 6;
/** Beats without a P of their own, at most; with fewer than `LEAST` nothing is said. */
const WITHOUT_P = 1;
const LEAST = 3;
/** Intervals this far from the usual one of the named stretch, as a share, are another pace. */
const SAME_PACE = 0.25;
/** Sureness that is left. */
const LESS = 0.8;

/**
 * A few beats between two bursts of noise prove no rhythm by themselves. They go on with the rhythm
 * beside them where each of them is like the beats there: QRS of the same shape, P at the same PR, the
 * same pace. Null where one is not.
 */
export function carriedOn(
  named: Stretch & { readonly finding: Finding },
  few: Stretch,
  leads: readonly Channel[],
  { species }: Patient,
): Finding | null {
  if (!CARRIED.some((name) => name === named.finding.name)) return null;
  if (few.beats.length < LEAST || gapBetween(named, few) > NEAR) return null;
  const like = [...named.beats, ...few.beats];
  const { of } = shapeFamilies(leads, like);
  const own = median(of.slice(0, named.beats.length));
  const alike = share(of.slice(named.beats.length), (family) => family === own);
  const usual = median(intervalsOf(named));
  const paces = intervalsOf(few).map((interval) => interval / usual);
  const pr = median(prsOf(named));
  const same = prsOf(few).filter((each) => Math.abs(each - pr) <= EQUAL_PR[species]).length;
  if (
    alike < 1 ||
    few.beats.some(({ kind }) => kind !== 'sinus' && kind !== 'unclassified') ||
    paces.some((pace) => Math.abs(pace - 1) > SAME_PACE) ||
    few.beats.length - same > WITHOUT_P
  )
    return null;
  return finding(
    named.finding.name,
    few,
    LESS * named.finding.confidence,
    reasons(named, few, same, pr, paces),
    { range: named.finding.range },
  );
}

function reasons(
  named: Stretch,
  few: Stretch,
  same: number,
  pr: number,
  paces: readonly number[],
): Reason[] {
  const off = Math.max(...paces.map((pace) => Math.abs(pace - 1)));
  return [
    reason('shape as beside', { count: few.beats.length, from: named.from, to: named.to }),
    reason('PR as beside', { count: same, pr }),
    reason('pace as beside', { share: off, limit: SAME_PACE }),
  ];
}

function gapBetween(one: Stretch, other: Stretch): number {
  return Math.max(one.from, other.from) - Math.min(one.to, other.to);
}

function intervalsOf({ beats }: Stretch): number[] {
  return beats.slice(1).map(({ time }, i) => time - beats[i]!.time);
}

function prsOf({ beats }: Stretch): number[] {
  return beats.map(prOf).filter((pr) => pr !== null);
}
