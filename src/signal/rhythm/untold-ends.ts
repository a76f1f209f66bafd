import { differences, median, mostOf } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import type { Channel } from '../waveform.js';
import { tallest, usualHeight } from './evidence/between-beats.js';
import { isFromAbove } from './evidence/evidence.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A wave this tall beside the usual QRS may be one: T is over, and P is half as tall at most, even beside a low QRS. */
const AS_TALL_AS_QRS = 0.6;
/** T is over so long after R where its end is not marked, s; that of a wide beat later. Tables end QT at 0.25 s. */
const T_OVER = { narrow: 0.25, wide: 0.35 };
/** Before R where no P and no QRS onset is marked, s. */
const BEFORE_R = 0.1;
/** Beside a marked wave, s. */
const CLEAR = 0.02;
/** A third of a second stays with the beat: its own P, QRS and T. */
const OWN = 0.3;
/** A beat is overdue at the end of a stretch after so many of the usual intervals and of the longest, and so many s. */
const OVERDUE = { usual: 2, longest: 1.5, seconds: 2 };

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Where a stretch is to be cut, s, because what lies at its ends, before its first beat or after its last, is no part of what the beats
 * tell: waves as tall as a QRS that were not counted, or no beat for longer than the rhythm has been without one. `beats`
 * ascend; `quiet` are the leads without power-line hum.
 */
export function untoldEnds(
  beats: readonly MarkedBeat[],
  quiet: readonly Channel[],
  { from, to }: Stretch,
): number[] {
  const [first, last] = [beats[0], beats.at(-1)];
  if (!first || !last || beats.length < 3) return [];
  const intervals = differences(beats.map(({ time }) => time));
  const longestRest = Math.max(
    OVERDUE.seconds,
    OVERDUE.usual * median(intervals),
    OVERDUE.longest * mostOf(intervals),
  );
  const usual = quiet.map((lead) => usualHeight(lead, beats));
  const isUntold = (start: number, end: number): boolean =>
    quiet.some((lead, i) => tallest(lead, start, end) > AS_TALL_AS_QRS * usual[i]!);
  const isUntoldBefore = (k: number): boolean =>
    // The T of a beat that came before the stretch may stand at its beginning.
    isUntold(k > 0 ? endOf(beats[k - 1]!) : from + T_OVER.narrow, beginningOf(beats[k]!));
  const isUntoldAfter = (k: number): boolean =>
    isUntold(endOf(beats[k]!), k + 1 < beats.length ? beginningOf(beats[k + 1]!) : to);
  const { head, tail } = endsWithoutLed(beats);
  const begin = head.findLast(isUntoldBefore) ?? (first.time - from > longestRest ? 0 : null);
  const end = tail.find(isUntoldAfter) ?? (to - last.time > longestRest ? beats.length - 1 : null);
  return [
    ...(begin === null ? [] : [beats[begin]!.time - OWN]),
    ...(end === null ? [] : [beats[end]!.time + OWN]),
  ];
}

/** Fibrillating ventricles that begin or end gently leave so many of their waves beside the others' beats, counted as beats. */
const FEW = 3;

/**
 * Places of the first and of the last beats, with those of the ventricles before the first or after the last that a sinus
 * node led: if only few of them stand there, they may be all that was counted of another rhythm.
 */
function endsWithoutLed(beats: readonly MarkedBeat[]): {
  readonly head: readonly number[];
  readonly tail: readonly number[];
} {
  const last = beats.length - 1;
  if (2 * beats.filter(isSinus).length < beats.length) return { head: [0], tail: [last] };
  const firstLed = beats.findIndex(isSinus);
  const lastLed = beats.findLastIndex(isSinus);
  const upTo = firstLed >= 0 && firstLed <= FEW ? firstLed : 0;
  const from = lastLed >= last - FEW ? lastLed : last;
  return { head: places(0, upTo), tail: places(from, last) };
}

const isSinus = ({ kind }: MarkedBeat): boolean => kind === 'sinus';

const places = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, k) => from + k);

const beginningOf = ({ time, p, qrs }: MarkedBeat): number =>
  (p ?? qrs ?? { onset: time - BEFORE_R }).onset - CLEAR;

function endOf(beat: MarkedBeat): number {
  const over = isFromAbove(beat) ? T_OVER.narrow : T_OVER.wide;
  return Math.max(beat.t?.end ?? 0, beat.time + over) + CLEAR;
}
