import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { SHARP, sharpFrom, sharpness } from './evidence/main-family.js';
import { sinusProof } from './evidence/sinus-proof.js';
import { finding, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';
import { ventricularRuns } from './ventricular-premature.js';

const isAberrant = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';
const isSinus = ({ kind }: MarkedBeat): boolean => kind === 'sinus';

/** Beats of a ventricle that no other event tells of: neither early, nor three in a row, nor beside fusion beats. */
function ventricularOnTime(beats: readonly MarkedBeat[]): MarkedBeat[] {
  const runs = ventricularRuns(beats);
  const isTold = runs.some(({ early }) => early) || beats.some(({ kind }) => kind === 'fusion');
  return isTold ? [] : runs.flatMap(({ members }) => members);
}

const byTime = (a: MarkedBeat, b: MarkedBeat): number => a.time - b.time;

/** A blocked branch of the bundle and a fusion with beats of a ventricle look alike where all of them have one wide shape. */
export const wideOnTime: Rhythm = {
  names: ['wide complexes on time'],
  criteria: [
    'on time, after a P at the usual PR or up to 0.06 s nearer, or with a P that the QRS hides',
    "QRS wide, of one shape that is not the heart's own",
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const isProven = sinusProof(evidence).proven;
    const others = [
      ...evidence.beats.filter(isAberrant),
      ...(isProven ? ventricularOnTime(evidence.beats) : []),
    ].sort(byTime);
    const own = evidence.beats.filter(isSinus).length;
    // More of them are no event within a rhythm, unless P is seen to lead to each.
    if (others.length === 0 || (others.length >= own && !isProven)) return [];
    // All of them under one sharp stroke have none of another shape beside them.
    if (
      own === 0 &&
      sharpness(evidence.shapes.families[0]) > sharpFrom(SHARP, evidence.samplingRate)
    )
      return [];
    const { length } = evidence.beats;
    return [
      finding(
        'wide complexes on time',
        evidence,
        others.reduce((sum, { confidence }) => sum + confidence, 0) / others.length,
        [reason('wide beats on time', { count: others.length, beats: length })],
        { beats: others.map(({ time }) => time) },
      ),
    ];
  },
};
