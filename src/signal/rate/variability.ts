import { type Seconds, seconds } from '../../units/brands.js';
import { differences, sumOf } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';

/**
 * How the intervals from one sinus beat to the next (NN) vary. Terms: Task Force of the European Society of Cardiology
 * and the North American Society of Pacing and Electrophysiology, Heart rate variability, Circulation 93:1043-1065 (1996).
 */
export interface Variability {
  /** NN intervals. */
  readonly intervals: number;
  /** Pairs of NN intervals that follow one another. */
  readonly pairs: number;
  readonly meanNn: Seconds;
  /** Standard deviation of the NN intervals (over intervals less one). */
  readonly sdnn: Seconds;
  /** Root of the mean square of the differences within the pairs. */
  readonly rmssd: Seconds;
  /** Pairs that differ by more than 50 ms, as a share of all NN intervals, 0 to 1. */
  readonly pnn50: number;
  readonly caution: string;
}

/** Fewer describe hardly more than a few breaths. Own choice, not a clinical number; the Task Force asks for five minutes. */
export const FEWEST_INTERVALS = 20;

const VARIABILITY_CAUTION =
  'Describes this strip only: the published terms ask for five minutes of an awake patient; anesthetic drugs, the ventilator and a short strip all change them.';

/** s. Source: the Task Force, as above. */
const FIFTY_MILLISECONDS = 0.05;
/** Intervals are differences of times: equal ones may differ in their last binary digit, s. Not a clinical number. */
const SAME = 1e-9;

/**
 * Over runs of sinus beats, one list of R times (s, ascending) each. No interval and no difference is counted from one
 * run to the next. Null for fewer than `FEWEST_INTERVALS` intervals.
 */
export function variability(runs: readonly (readonly number[])[]): Variability | null {
  const nn = runs.map(differences);
  const all = nn.flat();
  const changes = nn.flatMap(differences);
  if (all.length < FEWEST_INTERVALS || changes.length === 0) return null;
  const mean = sumOf(all) / all.length;
  const far = changes.filter(isFar);
  return {
    intervals: all.length,
    pairs: changes.length,
    meanNn: seconds(mean),
    sdnn: seconds(Math.sqrt(squares(all, mean) / (all.length - 1))),
    rmssd: seconds(Math.sqrt(squares(changes, 0) / changes.length)),
    pnn50: far.length / all.length,
    caution: VARIABILITY_CAUTION,
  };
}

const isFar = (change: number): boolean => Math.abs(change) > FIFTY_MILLISECONDS + SAME;

/** Sum of the squared distances from `middle`. */
function squares(values: readonly number[], middle: number): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum += (values[i]! - middle) ** 2;
  return sum;
}

/** Times of sinus beats that follow one another, with no other beat between, within stretches of sinus rhythm. */
export function sinusRuns(
  beats: readonly Pick<MarkedBeat, 'time' | 'kind'>[],
  stretches: readonly { readonly from: number; readonly to: number }[],
): number[][] {
  return stretches.flatMap(({ from, to }) => runsWithin(beats, from, to));
}

function runsWithin(
  beats: readonly Pick<MarkedBeat, 'time' | 'kind'>[],
  from: number,
  to: number,
): number[][] {
  const runs: number[][] = [[]];
  for (const beat of beats) addToRuns(beat, from, to, runs);
  return runs.filter(isOfSeveral);
}

const isOfSeveral = (run: readonly number[]): boolean => run.length > 1;

function addToRuns(
  { time, kind }: Pick<MarkedBeat, 'time' | 'kind'>,
  from: number,
  to: number,
  runs: number[][],
): void {
  if (time < from || time >= to) return;
  if (kind === 'sinus') runs.at(-1)!.push(time);
  else runs.push([]);
}
