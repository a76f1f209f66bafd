import { prOf } from '../../beats/leading-p.js';
import { countBefore } from '../../filter/ascending.js';
import { median, mode, share } from '../../filter/spread.js';
import type { MarkedBeat, Patient, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { EQUAL_PR, FARTHEST_P } from '../interval-limits.js';
import { atrialClock, coherenceOf } from './atrial.js';
import type { SeenP } from './seen-p.js';
import { waveInGaps } from './wave-in-gap.js';

/** How P waves and QRS are tied over a stretch. */
export interface ConductionEvidence {
  /**
   * P waves that no QRS follows, between two beats that are not early ventricular ones, and that the
   * trace confirms.
   */
  readonly blocked: number;
  /** As marked, in calm stretches, confirmed or not. */
  readonly marked: number;
  /** Middle length of the intervals that hold one over that of the others; NaN where those are few. */
  readonly longerBy: number;
  /** Share of these intervals in which another wave stands behind the last beat (`waveInGaps`). */
  readonly waveInGaps: () => number;
  /** The most of them in one interval. */
  readonly mostInARow: number;
  /** Middle length of the intervals that hold one, s. */
  readonly gapLength: number;
  /** Intervals between beats with at least one. */
  readonly gapsWithBlocked: number;
  /** Share of them that stand a cycle, or cycles, of the atria from the P waves on both sides. */
  readonly inStep: number;
  /** Likeness of the blocked P waves with each other in the trace: real waves stay over 0.5. */
  readonly blockedCoherence: number;
  /** QRS at the usual distance after a P (PR equal, within the reading error), as a share of beats. */
  readonly led: number;
  /** Usual distance, s. */
  readonly pr: number;
  /** Share of the beats after a drop at whose PR these beats usually follow: by chance a third of a few. */
  readonly sameAfterDrop: number;
  /** At each dropped beat: PR of the last beat before it less that of the first after it, s. */
  readonly shortenedAfterDrop: readonly number[];
  /** Of the beats between two drops, two or more of them: PR of the last less that of the first, s. */
  readonly lengthenedBetweenDrops: readonly number[];
}

/** @param seen the lone P waves of the stretch, as the trace shows them */
export function conductionEvidence(
  beats: readonly MarkedBeat[],
  seen: SeenP,
  quiet: readonly Channel[],
  patient: Patient,
): ConductionEvidence {
  const { confirmed: loneP } = seen;
  // A P hidden by an early beat is not blocked: the ventricles were not ready for it.
  const all = gapsWith(loneP, beats);
  const gaps = all.filter(isHolding);
  const others = all.filter(isEmpty);
  const blocked = gaps.flatMap(({ inside }) => inside);
  const usual = mode(prsOf(beats, loneP, FARTHEST_P[patient.species]), EQUAL_PR[patient.species]);
  return {
    blocked: blocked.length,
    marked: countIn(all, seen.calm),
    longerBy:
      others.length >= Math.max(OTHERS.count, OTHERS.share * all.length)
        ? median(gaps.map(lengthOf)) / median(others.map(lengthOf))
        : Number.NaN,
    waveInGaps: () => waveInGaps(gaps, others, quiet),
    mostInARow: gaps.reduce((most, { inside }) => Math.max(most, inside.length), 0),
    gapLength: median(gaps.map(lengthOf)),
    gapsWithBlocked: gaps.length,
    inStep: inStepWithOthers(blocked, beats, loneP),
    blockedCoherence:
      blocked.length < 4
        ? 0
        : coherenceOf(
            quiet,
            blocked.map(({ peak }) => [peak, peak + 0.04]),
          ).coherence,
    led: beats.length > 0 ? usual.count / beats.length : 0,
    pr: usual.middle,
    sameAfterDrop: sameAfter(gaps, loneP, patient),
    shortenedAfterDrop: gaps.flatMap(({ before, beat }) => {
      const last = prOf(before);
      const first = prOf(beat);
      return last !== null && first !== null ? [last - first] : [];
    }),
    lengthenedBetweenDrops: lengthenedBetween(gaps),
  };
}

/** A node that has rested conducts alike each time; where P and QRS go their own ways any distance comes. */
function sameAfter(gaps: readonly Gap[], loneP: readonly Wave[], { species }: Patient): number {
  const after = gaps.map(({ beat }) => beat);
  const usual = mode(prsOf(after, loneP, FARTHEST_P[species]), 2 * EQUAL_PR[species]);
  return gaps.length > 0 ? usual.count / gaps.length : 0;
}

/** From the first beat after each drop to the last before the next. */
function lengthenedBetween(gaps: readonly Gap[]): number[] {
  return gaps.slice(1).flatMap(({ before: last }, k) => {
    const first = gaps[k]!.beat;
    const [from, to] = [prOf(first), prOf(last)];
    return first !== last && from !== null && to !== null ? [to - from] : [];
  });
}

/** Intervals without a lone P tell how long one is from this many on, and this share of all. Own choice, not a clinical number. */
const OTHERS = { count: 3, share: 0.2 };

/** Atria do not keep time to the beat: a cycle may be off by this share. Own choice, not a clinical number. */
const OFF_STEP = 0.2;

/** Movement leaves bumps at any time; the atria march on whether or not a QRS follows. */
function inStepWithOthers(
  blocked: readonly Wave[],
  beats: readonly MarkedBeat[],
  loneP: readonly Wave[],
): number {
  const { times, cycle } = atrialClock(beats, loneP);
  return share(blocked, ({ peak }) => {
    const at = countBefore(times, (time) => time >= peak);
    return [times[at - 1], times[at + 1]].every((neighbour) => {
      if (neighbour === undefined) return true;
      const cycles = Math.abs(peak - neighbour) / cycle;
      const whole = Math.round(cycles);
      return whole >= 1 && whole <= 3 && Math.abs(cycles - whole) < OFF_STEP;
    });
  });
}

/** Neighbouring beats, and the lone P waves between them. */
interface Gap {
  readonly before: MarkedBeat;
  readonly beat: MarkedBeat;
  readonly inside: readonly Wave[];
}

function gapsWith(loneP: readonly Wave[], beats: readonly MarkedBeat[]): Gap[] {
  const gaps: Gap[] = [];
  for (let i = 1; i < beats.length; i += 1) addGap(beats[i - 1]!, beats[i]!, loneP, gaps);
  return gaps;
}

function addGap(before: MarkedBeat, beat: MarkedBeat, loneP: readonly Wave[], gaps: Gap[]): void {
  if (!isEarly(before) && !isEarly(beat)) {
    gaps.push({ before, beat, inside: between(loneP, before, beat) });
  }
}

const isHolding = ({ inside }: Gap): boolean => inside.length > 0;
const isEmpty = ({ inside }: Gap): boolean => inside.length === 0;
const lengthOf = ({ before, beat }: Gap): number => beat.time - before.time;

/** PR of the beats that have one, s. */
function prsOf(beats: readonly MarkedBeat[], loneP: readonly Wave[], farthest: number): number[] {
  // Where P and QRS are not tied a P may have been marked as lone or as the beat's: take the nearest.
  const byOnset = loneP.toSorted((a, b) => a.onset - b.onset);
  const prs: number[] = [];
  for (const beat of beats) addPr(beat, byOnset, farthest, prs);
  return prs;
}

/** PR of a beat: its own, or from the lone P nearest before it. */
function addPr(beat: MarkedBeat, byOnset: readonly Wave[], farthest: number, prs: number[]): void {
  const marked = prOf(beat);
  if (marked !== null) {
    prs.push(marked);
    return;
  }
  const last = byOnset[countBefore(byOnset, ({ onset }) => onset >= beat.time) - 1];
  if (last && last.onset > beat.time - farthest) {
    prs.push((beat.qrs?.onset ?? beat.time) - last.onset);
  }
}

function countIn(gaps: readonly Gap[], waves: readonly Wave[]): number {
  let count = 0;
  if (waves.length > 0) {
    for (const { before, beat } of gaps) count += between(waves, before, beat).length;
  }
  return count;
}

const NOTHING: readonly Wave[] = [];

function between(loneP: readonly Wave[], before: MarkedBeat, beat: MarkedBeat): readonly Wave[] {
  if (loneP.length === 0) return NOTHING;
  const first = countBefore(loneP, ({ peak }) => peak > before.time);
  return loneP.slice(
    first,
    countBefore(loneP, ({ peak }) => peak >= beat.time - 0.02),
  );
}

const isEarly = ({ kind }: MarkedBeat): boolean =>
  kind === 'ventricular premature' || kind === 'ventricular';

/**
 * Share of dropped beats after which PR is shorter, and of the rows of beats between two of them over which it grows, by
 * more than it can be misread: the lesser of both. Where P and QRS go their own ways for a while PR may be shorter after
 * a drop, but it does not grow from beat to beat.
 */
export function lengthens(
  { shortenedAfterDrop, lengthenedBetweenDrops }: ConductionEvidence,
  patient: Patient,
): number {
  const isMore = (by: number): boolean => by > EQUAL_PR[patient.species];
  return Math.min(share(shortenedAfterDrop, isMore), share(lengthenedBetweenDrops, isMore));
}
