import { median, mostOf } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { mostHidden } from './evidence/hidden-p.js';
import { finding, type Rhythm } from './rhythm.js';
import { isIrregular, PAUSE, sinusIntervals, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Told within a sinus rhythm only: the proof has seen that no P and no QRS hides in the pause. */
export const sinusPause: Rhythm = {
  names: ['sinus pause'],
  criteria: [
    'an interval of 1.8 or more usual ones between two sinus beats, longer by far than what an uneven rhythm has of its own',
    'no P wave and no QRS in it',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof || evidence.breath === 'linked') return [];
    const intervals = sinusIntervals(evidence);
    const usual = median(intervals);
    const least = leastPause(intervals, PAUSE * usual, isIrregular(evidence));
    const ends = endsOfPauses(evidence.beats, least);
    if (ends.length === 0) return [];
    const longest = Math.max(
      ...ends.map((beat) => beat.time - evidence.beats[evidence.beats.indexOf(beat) - 1]!.time),
    );
    return [
      finding(
        'sinus pause',
        evidence,
        proof.confidence * 0.9,
        [
          reason('pauses', { count: ends.length }),
          reason('longest pause', { longest, usual, limit: least }),
          reason('P in pauses', { share: mostHidden(evidence.between.hiddenP) }),
        ],
        { beats: ends.map(({ time }) => time) },
      ),
    ];
  },
};

/** Where the intervals are uneven as it is, a pause is so many times as long as the longest of the others. Own choice, not a clinical number. */
const BEYOND_UNEVEN = 1.4;

function leastPause(intervals: readonly number[], least: number, isUneven: boolean): number {
  if (!isUneven) return least;
  const others = intervals.filter((interval) => interval < least);
  return Math.max(least, BEYOND_UNEVEN * mostOf(others));
}

/** The beats behind pauses of so many s and more. */
function endsOfPauses(beats: readonly MarkedBeat[], least: number): MarkedBeat[] {
  const ends: MarkedBeat[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    if (endsPause(beats[i - 1]!, beats[i]!, least)) ends.push(beats[i]!);
  }
  return ends;
}

const endsPause = (before: MarkedBeat, beat: MarkedBeat, least: number): boolean =>
  before.kind === 'sinus' &&
  beat.kind !== 'ventricular premature' &&
  beat.time - before.time >= least;
