import { prOf } from '../beats/leading-p.js';
import { EARLY } from '../beats/usual-intervals.js';
import { beatToBeatChange, differences, median, unevenness } from '../filter/spread.js';
import type { MarkedBeat, Patient } from '../marked-beat.js';
import { IRREGULAR } from './atrial-fibrillation.js';
import { FARTHEST_P } from './interval-limits.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Share of the beats that are seen to follow a P: where one leads to each, and where none does and noise or fibrillating atria look like some. */
const SEEN = { led: 0.93, unled: 0.2 };
/** Chance that the next beat begins another rhythm. */
const CHANGES = 1e-4;
/** Fewer beats leave nothing to tell a rhythm by. */
const ENOUGH = 8;

/**
 * Between which beats a rhythm that P waves lead ends, or begins, beside one without P and without time, as fibrillating atria
 * leave it: times, s, ascending. Told by the likeliest course of two states, of which each makes a P before the beats seen so
 * often; only where enough beats lie on both sides.
 */
export function ledEdges(beats: readonly MarkedBeat[], patient: Patient): number[] {
  if (beats.length < 2 * ENOUGH) return [];
  const rows = rowsOf(likeliestCourse(beats.map((beat) => isAfterP(beat, patient))));
  return rows.slice(1).flatMap(({ from }, k) => {
    const pair = [rows[k]!, rows[k + 1]!];
    const unled = pair.find(({ isLed }) => !isLed)!;
    const areLong = pair.every(({ from: first, end }) => end - first >= ENOUGH);
    if (!areLong || !isWithoutTime(beats.slice(unled.from, unled.end))) return [];
    const at = unled.from === from ? pastUntimely(from, beats) : behindUntimely(from, beats);
    return [(beats[at - 1]!.time + beats[at]!.time) / 2];
  });
}

/** The place before a row that P does not lead, past a beat that is early or late beside those before it: fibrillation begins so, and a wave of it may look like a P. */
function pastUntimely(from: number, beats: readonly MarkedBeat[]): number {
  let at = from;
  while (at > ENOUGH && isUntimely(at - 1, beats)) at -= 1;
  return at;
}

function isUntimely(i: number, beats: readonly MarkedBeat[]): boolean {
  const intervals = differences(beats.slice(i - ENOUGH, i + 1).map(({ time }) => time));
  const pace = intervals.pop()! / median(intervals);
  return pace < EARLY || pace > 1 / EARLY;
}

/**
 * The place where a row that P leads begins, behind what is early or late beside the beats after it: fibrillation that is
 * coarse shows what looks like P before its last beats as well, and ends with a pause.
 */
function behindUntimely(from: number, beats: readonly MarkedBeat[]): number {
  let at = from;
  const last = Math.min(from + 2 * ENOUGH, beats.length - ENOUGH - 1);
  for (let i = from; i < Math.min(last, at + ENOUGH); i += 1) {
    const [own, ...later] = differences(beats.slice(i, i + ENOUGH + 2).map(({ time }) => time));
    const pace = own! / median(later);
    if (pace < EARLY || pace > 1 / EARLY) at = i + 1;
  }
  return at;
}

function isAfterP(beat: MarkedBeat, { species }: Patient): boolean {
  const pr = prOf(beat);
  return pr !== null && pr > 0 && pr <= FARTHEST_P[species];
}

function isWithoutTime(beats: readonly MarkedBeat[]): boolean {
  const intervals = differences(beats.map(({ time }) => time));
  return unevenness(intervals) >= IRREGULAR && beatToBeatChange(intervals) >= IRREGULAR;
}

/** Of each beat whether it is of the rhythm that P waves lead, by the likeliest course through both states (Viterbi). */
function likeliestCourse(afterP: readonly boolean[]): boolean[] {
  const stay = Math.log(1 - CHANGES);
  const change = Math.log(CHANGES);
  const likely = (isSeen: boolean, of: number): number => Math.log(isSeen ? of : 1 - of);
  let led = 0;
  let unled = 0;
  // Of each beat and state, whether the beat before it was led.
  const fromLed: [led: boolean, unled: boolean][] = [];
  for (const isSeen of afterP) {
    const back: [boolean, boolean] = [led + stay >= unled + change, led + change > unled + stay];
    const nextLed = Math.max(led + stay, unled + change) + likely(isSeen, SEEN.led);
    unled = Math.max(led + change, unled + stay) + likely(isSeen, SEEN.unled);
    led = nextLed;
    fromLed.push(back);
  }
  const course: boolean[] = [];
  let isLed = led >= unled;
  for (let i = afterP.length - 1; i >= 0; i -= 1) {
    course.push(isLed);
    isLed = fromLed[i]![isLed ? 0 : 1];
  }
  return course.reverse();
}

/** Neighbouring beats of one state: the place of the first, and of the one after the last. */
interface Row {
  readonly isLed: boolean;
  readonly from: number;
  readonly end: number;
}

function rowsOf(course: readonly boolean[]): Row[] {
  const rows: Row[] = [];
  let from = 0;
  for (let i = 1; i <= course.length; i += 1) {
    if (i < course.length && course[i] === course[from]) continue;
    rows.push({ isLed: course[from]!, from, end: i });
    from = i;
  }
  return rows;
}
