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
 * Where a stretch is to be cut, s, because what lies before its first beat or after its last is no part of what the beats
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
  // The T of a beat that came before the stretch may stand at its beginning.
  const before = isUntold(from + T_OVER.narrow, beginningOf(first));
  const after = isUntold(endOf(last), to);
  return [
    ...(before || first.time - from > longestRest ? [first.time - OWN] : []),
    ...(after || to - last.time > longestRest ? [last.time + OWN] : []),
  ];
}

const beginningOf = ({ time, p, qrs }: MarkedBeat): number =>
  (p ?? qrs ?? { onset: time - BEFORE_R }).onset - CLEAR;

function endOf(beat: MarkedBeat): number {
  const over = isFromAbove(beat) ? T_OVER.narrow : T_OVER.wide;
  return Math.max(beat.t?.end ?? 0, beat.time + over) + CLEAR;
}
