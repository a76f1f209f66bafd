import { median } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { mostHidden } from './evidence/hidden-p.js';
import { finding, type Rhythm } from './rhythm.js';
import { PAUSE, sinusIntervals, sinusLed } from './sinus.js';
import { COMMON_PRACTICE } from './source.js';

/** Told within a sinus rhythm only: the proof has seen that no P and no QRS hides in the pause. */
export const sinusPause: Rhythm = {
  names: ['sinus pause'],
  criteria: [
    'an interval of 1.8 or more usual ones between two sinus beats',
    'no P wave and no QRS in it',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const proof = sinusLed(evidence);
    if (!proof || evidence.breath === 'linked') return [];
    const usual = median(sinusIntervals(evidence));
    const ends = endsOfPauses(evidence.beats, PAUSE * usual);
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
          reason('longest pause', { longest, usual, limit: PAUSE * usual }),
          reason('P in pauses', { share: mostHidden(evidence.between.hiddenP) }),
        ],
        { beats: ends.map(({ time }) => time) },
      ),
    ];
  },
};

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
