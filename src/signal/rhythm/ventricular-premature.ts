import type { MarkedBeat } from '../marked-beat.js';
import { reason } from '../reason.js';
import { atrialFibrillation } from './atrial-fibrillation.js';
import type { Evidence } from './evidence/evidence.js';
import { mainFamily } from './evidence/main-family.js';
import { finding, type Pattern, type Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** Every second or third beat so many times running is a pattern. Common practice: three. */
const RUNNING = 3;

/** Of the beats from above fewer of one shape do not say which shape is another. Own choice, not a clinical number. */
const ONE_SHAPE = 0.7;

/**
 * Whether the beats from above have a shape of their own: where noise, or waves of fibrillating atria, bend each beat in
 * another way, none is of a ventricle for its shape.
 */
export const hasOneShape = (evidence: Evidence): boolean => mainFamily(evidence).share >= ONE_SHAPE;

/** Whether the beats keep no time by which one could be early: then those of a ventricle are told by their shape alone. */
const isWithoutTime = (evidence: Evidence): boolean => atrialFibrillation.find(evidence).length > 0;

/** Runs of which one at least is early, or of which each beat has a shape that is not its alone: the waves of fibrillating atria bend single ones. */
function toldRuns(evidence: Evidence): readonly Run[] {
  const runs = ventricularRuns(evidence.beats);
  if (isWithoutTime(evidence)) {
    const { families, of } = evidence.shapes;
    const isOfMany = (place: number): boolean => (families[of[place]!]?.members.length ?? 0) > 1;
    return runs.filter(({ members, at }) => members.every((_, k) => isOfMany(at + k)));
  }
  return runs.some(({ early }) => early) ? runs : [];
}

/** Early wide beats within another rhythm: single, in pairs, or every second or third. */
export const ventricularPremature: Rhythm = {
  names: ['ventricular premature complexes'],
  criteria: [
    'early: under 0.85 of the interval usual around it; in atrial fibrillation at any time',
    "QRS wide and of another shape than the heart's own",
    'no P wave leads to it',
  ],
  source: COMMON_PRACTICE,
  find: (evidence) => {
    const { beats } = evidence;
    const runs = toldRuns(evidence);
    const own = beats.some(({ kind }) => kind === 'sinus' || kind === 'unclassified');
    const early = runs.flatMap(({ members }) => members);
    if (early.length === 0 || !own) return [];
    if (!hasOneShape(evidence)) return [];
    const longest = runs.reduce((most, { members }) => Math.max(most, members.length), 0);
    const confidence = early.reduce((sum, beat) => sum + beat.confidence, 0) / early.length;
    return [
      finding(
        'ventricular premature complexes',
        evidence,
        confidence,
        [
          reason('early wide beats', { count: early.length, beats: beats.length }),
          reason('most in a row', { count: longest }),
        ],
        { beats: early.map(({ time }) => time), patterns: patternsOf(beats, runs) },
      ),
    ];
  },
};

/** Ventricular beats that follow one another. */
export interface Run {
  readonly members: readonly MarkedBeat[];
  /** Place of the first among the beats. */
  readonly at: number;
  /** Whether its first beat is premature or the run is three or longer. */
  readonly early: boolean;
}

/** Neighbouring ventricular beats that are not escapes. */
export function ventricularRuns(beats: readonly MarkedBeat[]): Run[] {
  const runs: GrowingRun[] = [];
  for (let i = 0; i < beats.length; i += 1) addToRuns(beats[i]!, i, runs);
  return runs;
}

interface GrowingRun extends Run {
  readonly members: MarkedBeat[];
  early: boolean;
}

function addToRuns(beat: MarkedBeat, at: number, runs: GrowingRun[]): void {
  if (beat.kind !== 'ventricular premature' && beat.kind !== 'ventricular') return;
  const last = runs.at(-1);
  if (last && last.at + last.members.length === at) {
    last.members.push(beat);
    last.early ||= last.members.length >= 3;
  } else {
    runs.push({ members: [beat], at, early: beat.kind === 'ventricular premature' });
  }
}

function patternsOf(beats: readonly MarkedBeat[], runs: readonly Run[]): Pattern[] {
  const patterns = new Set<Pattern>();
  const singles = runs.filter(({ members }) => members.length === 1);
  const inStep = new Set<Run>();
  for (const [step, pattern] of [
    [2, 'every second'],
    [3, 'every third'],
  ] as const) {
    let row = 0;
    for (const [k, run] of singles.entries()) {
      row = k > 0 && run.at - singles[k - 1]!.at === step ? row + 1 : 1;
      if (row < RUNNING) continue;
      patterns.add(pattern);
      for (const member of singles.slice(k + 1 - RUNNING, k + 1)) inStep.add(member);
    }
  }
  if (singles.some((run) => !inStep.has(run) && run.at > 0 && run.at < beats.length - 1)) {
    patterns.add('single');
  }
  if (runs.some(({ members }) => members.length === 2)) patterns.add('pairs');
  if (runs.some(({ members }) => members.length >= 3)) patterns.add('runs');
  return [...patterns];
}
