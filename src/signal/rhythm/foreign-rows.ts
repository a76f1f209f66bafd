import { EARLY } from '../beats/usual-intervals.js';
import { differences, median, share } from '../filter/spread.js';
import type { MarkedBeat } from '../marked-beat.js';
import { LASTING } from './asystole.js';
import { isFromAbove } from './evidence/evidence.js';
import { OWN_RHYTHM } from './evidence/wide-rhythm.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Neighbouring beats. */
export interface Row {
  readonly members: readonly MarkedBeat[];
  /** Place of the first among the beats. */
  readonly at: number;
}

/** So many early beats in a row are a run. */
const RUN = 3;
/** From the beat before to the beat after, s. */
const LONGER_THAN_A_JOLT = 2.5;
/** Intervals on either side that say what is usual. */
const AROUND = 8;
/** Of the early beats of a run no more than this share has what may be the P of the others, */
const BY_CHANCE = 0.5;
/** unless two follow sooner than this share of what is usual, as no sinus node does from beat to beat: then it is T. */
const RUSHED = 0.6;
/** Of the beats outside the runs at least this share is led by the sinus node, or there is nothing to part them from. */
const LED_ELSEWHERE = 0.6;

/**
 * Rows of beats that are no part of the rhythm around them, and are weighed by themselves: beats that nothing from above
 * started, enough of them or for long enough to be a rhythm of their own, and runs of early beats without the P of the
 * others, whatever their QRS looks like. What is early or late among beats from below by chance, or bears no name, does not
 * part them: a trace that fibrillates is counted so, and so are the P waves beside an escape rhythm.
 */
export function foreignRows(beats: readonly MarkedBeat[]): Row[] {
  const below = rowsWhere(beats, isNotOfTheNode).filter((row) => isRhythmOfItsOwn(row, beats));
  const taken = new Set(below.flatMap(({ members }) => members));
  return [
    ...below,
    ...runsWithoutP(beats).filter(({ members }) => !members.some((m) => taken.has(m))),
  ].sort((a, b) => a.at - b.at);
}

/** A beat that cannot be told, or seems early, may be a P or a wave among those from below. */
const isNotOfTheNode = (beat: MarkedBeat): boolean =>
  !isFromAbove(beat) || beat.kind === 'unclassified' || beat.kind === 'supraventricular premature';

function isRhythmOfItsOwn({ members, at }: Row, beats: readonly MarkedBeat[]): boolean {
  const fromAbove = share(members, isFromAbove);
  if (fromAbove > 0.5) return false;
  const before = beats[at - 1] ?? members[0]!;
  const after = beats[at + members.length] ?? members.at(-1)!;
  const lasts = after.time - before.time;
  // A jolt looks like a few of either kind.
  if (members.length >= OWN_RHYTHM && (fromAbove === 0 || lasts >= LONGER_THAN_A_JOLT)) return true;
  return members.length >= RUN && lasts >= LASTING;
}

function runsWithoutP(beats: readonly MarkedBeat[]): Row[] {
  const paces = pacesOf(beats);
  // A run that is known to come from below is told within the rhythm around it.
  const runs = rowsWhere(beats, (_, i) => paces[i]! < EARLY).filter(
    ({ members, at }) =>
      members.length >= RUN &&
      share(members, isFromAbove) >= 0.5 &&
      (share(members, isLed) <= BY_CHANCE ||
        (!isLed(members[0]!) && members.filter((_, k) => paces[at + k]! < RUSHED).length > 1)),
  );
  if (runs.length === 0) return [];
  const inRuns = new Set(runs.flatMap(({ members }) => members));
  const others = beats.filter((beat) => !inRuns.has(beat) && isFromAbove(beat));
  return share(others, isLed) >= LED_ELSEWHERE ? runs : [];
}

const isLed = ({ kind }: MarkedBeat): boolean => kind === 'sinus';

/** The interval before each beat as a share of what is usual around it; 1 for the first. */
function pacesOf(beats: readonly MarkedBeat[]): number[] {
  const intervals = differences(beats.map(({ time }) => time));
  return [1, ...intervals.map((interval, i) => interval / usualAround(i, intervals))];
}

const usualAround = (i: number, intervals: readonly number[]): number =>
  median(intervals.slice(Math.max(0, i - AROUND), i + AROUND + 1));

function rowsWhere(
  beats: readonly MarkedBeat[],
  isOf: (beat: MarkedBeat, place: number) => boolean,
): Row[] {
  const rows: { members: MarkedBeat[]; at: number }[] = [];
  for (const [i, beat] of beats.entries()) {
    if (!isOf(beat, i)) continue;
    const last = rows.at(-1);
    if (last && last.at + last.members.length === i) last.members.push(beat);
    else rows.push({ members: [beat], at: i });
  }
  return rows;
}
