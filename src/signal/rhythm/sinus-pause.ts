import { differences, median } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { mostHidden } from './evidence/hidden-p.js';
import { finding, type Rhythm } from './rhythm.js';
import { isIrregular, PAUSE, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Told within a sinus rhythm only: the proof has seen that no P and no QRS hides in the pause. */
export const sinusPause: Rhythm = {
  names: ['sinus pause'],
  criteria: [
    'an interval of 1.8 or more of those on either side between two sinus beats, longer by far than what an uneven rhythm has of its own',
    'no P wave, early or on time, and no QRS in it',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof || evidence.breath === 'linked') return [];
    const pauses = pausesOf(evidence.beats, isIrregular(evidence)).filter(
      ({ at }) => !evidence.blockedEarlyP().ends.has(at),
    );
    if (pauses.length === 0) return [];
    const { lasting, usual, least } = pauses.reduce((most, pause) =>
      pause.lasting > most.lasting ? pause : most,
    );
    return [
      finding(
        'sinus pause',
        evidence,
        proof.confidence * 0.9,
        [
          reason('pauses', { count: pauses.length }),
          reason('longest pause', { longest: lasting, usual, limit: least }),
          reason('P in pauses', { share: mostHidden(evidence.between.hiddenP) }),
        ],
        { beats: pauses.map(({ end }) => end.time) },
      ),
    ];
  },
};

/** Where the intervals are uneven as it is, a pause is so many times as long as the longest of the others. Own choice, not a clinical number. */
const BEYOND_UNEVEN = 1.4;

/** So many intervals on each side say what is usual there. Own choice, not a clinical number. */
const BESIDE = 4;

interface Pause {
  /** The beat that ends it. */
  readonly end: MarkedBeat;
  readonly at: number;
  /** s, with what is usual beside it and what it had to reach. */
  readonly lasting: number;
  readonly usual: number;
  readonly least: number;
}

/**
 * Intervals that stand out from those before and from those after: a rate that slows down, or comes up again, is no pause,
 * since its intervals are like the next.
 */
function pausesOf(beats: readonly MarkedBeat[], isUneven: boolean): Pause[] {
  const intervals = differences(beats.map(({ time }) => time));
  const pauses: Pause[] = [];
  let ownLongest = 0;
  for (let i = 0; i < intervals.length; i += 1) {
    const [before, end] = [beats[i]!, beats[i + 1]!];
    if (before.kind !== 'sinus' || end.kind === 'ventricular premature') continue;
    const lasting = intervals[i]!;
    if (standsOut(i, intervals)) {
      const usual = usualBeside(i, intervals);
      pauses.push({ end, at: i + 1, lasting, usual, least: PAUSE * usual });
    } else if (end.kind === 'sinus') ownLongest = Math.max(ownLongest, lasting);
  }
  if (!isUneven) return pauses;
  return pauses
    .map((pause) => ({ ...pause, least: Math.max(pause.least, BEYOND_UNEVEN * ownLongest) }))
    .filter(({ lasting, least }) => lasting >= least);
}

const standsOut = (i: number, intervals: readonly number[]): boolean =>
  isBeyondMost(intervals[i]!, intervals, Math.max(0, i - BESIDE), i) &&
  isBeyondMost(intervals[i]!, intervals, i + 1, Math.min(intervals.length, i + 1 + BESIDE));

/** Whether an interval is a pause beside most of those from a place to another; so it is beside none. */
function isBeyondMost(
  lasting: number,
  intervals: readonly number[],
  from: number,
  to: number,
): boolean {
  let shorter = 0;
  for (let i = from; i < to; i += 1) if (lasting >= PAUSE * intervals[i]!) shorter += 1;
  return from === to || 2 * shorter > to - from;
}

/** The middle one of the intervals on both sides. */
const usualBeside = (i: number, intervals: readonly number[]): number =>
  median([
    ...intervals.slice(Math.max(0, i - BESIDE), i),
    ...intervals.slice(i + 1, i + 1 + BESIDE),
  ]);
