import { differences } from '../filter/spread.js';
import type { BeatWaves } from '../marked-beat.js';

/** P onset to QRS onset, s; R stands in where the QRS onset was not found. */
export function prOf({ time, p, qrs }: BeatWaves): number | null {
  return p ? (qrs?.onset ?? time) - p.onset : null;
}

/** PR of each beat, s; null where no P lies near enough to lead to it. */
export function leadingPrs(beats: readonly BeatWaves[], farthest: number): (number | null)[] {
  const prs: (number | null)[] = [];
  for (const beat of beats) prs.push(leadingPr(beat, farthest));
  return prs;
}

function leadingPr(beat: BeatWaves, farthest: number): number | null {
  const pr = prOf(beat);
  return pr !== null && pr > 0 && pr <= farthest ? pr : null;
}

/** Share of some beats, given by their places, that a P can lead to. */
export function shareLed(members: readonly number[], pr: readonly (number | null)[]): number {
  let led = 0;
  for (const i of members) if (pr[i] !== null) led += 1;
  return members.length === 0 ? 0 : led / members.length;
}

/** Whether P and QRS are tied: most PR are equal, or they lengthen step by step. */
export type Tie = 'equal' | 'lengthening' | 'no';

/** A P before fewer of the own beats than this is chance. Own choice, not a clinical number. */
const LED = 0.5;

/** How the `prs` of `ownBeats` beats, s, are tied; those within `near` s of the usual one are equal. */
export function tieOf(prs: readonly number[], usual: number, near: number, ownBeats: number): Tie {
  if (prs.length < 3 || prs.length < LED * ownBeats) return 'no';
  if (countNear(usual, near, prs) / prs.length >= 0.6) return 'equal';
  const steps = differences(prs);
  const falls = steps.filter((step) => step < -near).length;
  const rises = steps.filter((step) => step > 0).length;
  return rises >= 0.6 * steps.length && rises >= 2 * falls ? 'lengthening' : 'no';
}

function countNear(middle: number, near: number, values: readonly number[]): number {
  let count = 0;
  for (const value of values) if (Math.abs(value - middle) <= near) count += 1;
  return count;
}
