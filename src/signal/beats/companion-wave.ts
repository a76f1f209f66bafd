import { average, level } from '../filter/excerpt.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { likeness, play, steepest, tallness } from './likeness.js';
import type { SearchLead } from './search-lead.js';
import type { Candidate, Taken } from './taken.js';

/** A T peaks within this time after its R (Pan and Tompkins 1985 look for it this far); in s. */
const tWithin = 0.36;
/** A P peaks within this time before its R; in s. */
const pWithin = 0.2;
/** Below this share of the beat's steepest slope it is no QRS (Pan and Tompkins 1985). */
const gentle = 0.5;
/** Waves this much alike have one shape. */
const sameShape = 0.9;
/**
 * A wave so much taller or steeper than its beat is no T and no P. A T is up to about 1.2 times as
 * tall as its R; as much as 1.5 times after a narrow R was sampled at 100 Hz and band-passed.
 */
const taller = 1.7;
const steeper = 1.3;
/** Neither QRS nor the rise of a T reaches farther than this from its peak; 80 ms in grid samples. */
const clear = Math.round(0.08 * searchRate);
/** An own T is at least this share of an early beat's height; between a QRS and a tall T less moves. */
const ownT = 0.08;
/** How many beats around are asked whether they carry the same wave. */
const asked = { atLeast: 3, atMost: 8 };

/**
 * Whether a candidate is a beat of its own or the companion of a beat: the T of the one before it
 * or the P of the one after it. `unsure` where only the beats around can tell. The beats in `taken`
 * stand out more than the candidate.
 *
 * A fixed refractory time cannot tell: at 260 beats/min the next R comes 0.23 s after the last one,
 * where a slow heart has its T. What tells is slope (a T rises more gently) and shape (a beat looks
 * like its neighbour, a T does not).
 */
export function ownOrCompanion(
  candidate: Candidate,
  taken: Taken,
  leads: readonly SearchLead[],
): 'own' | 'companion' | 'unsure' {
  let verdict: 'own' | 'unsure' = 'own';
  for (const { beat } of besides(candidate, taken)) {
    const slope = steepest(leads, candidate.position) / steepest(leads, beat.position);
    if (slope < gentle) return 'companion';
    if (likeness(leads, beat.position, candidate.position).alike >= sameShape) continue;
    const height = tallness(leads, candidate.position) / tallness(leads, beat.position);
    if (!(height > taller || slope > steeper)) verdict = 'unsure';
  }
  return verdict;
}

/**
 * The same for an unsure candidate, by its company: a T or P returns at the same distance with most
 * beats around, an extra beat does not.
 */
export function returnsWithNeighbours(
  candidate: Candidate,
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  return besides(candidate, taken).some(({ beat, distance }) => {
    const neighbours = taken.around(candidate, asked.atMost).filter((other) => other !== beat);
    if (neighbours.length < asked.atLeast) return true;
    if (hasTBefore(candidate, [beat, ...neighbours], distance, leads)) return false;
    return accompany(neighbours, candidate, [distance], taken, leads);
  });
}

/**
 * Whether the beats have had their T by then: an early wide beat after each of them stands as far from
 * its R as a late T would, and is as gentle, but the own T lies between.
 */
function hasTBefore(
  candidate: Candidate,
  beats: readonly Candidate[],
  distance: number,
  leads: readonly SearchLead[],
): boolean {
  const length = distance - 2 * clear;
  if (length < clear) return false;
  return leads.some(({ grid }) => {
    const rows = beats
      .map(({ position }) => grid.subarray(position + clear, position + clear + length))
      .filter((row) => row.length === length && row.every((x) => !Number.isNaN(x)));
    if (rows.length < asked.atLeast) return false;
    const usual = level(average(rows));
    const height = span(grid.subarray(candidate.position - clear, candidate.position + clear));
    return span(usual) > ownT * height;
  });
}

/** Highest less lowest. */
const span = (row: Float64Array): number => Math.max(...row) - Math.min(...row);

/** A beat, and how far behind it a candidate lies, in grid samples. */
interface Beside {
  readonly beat: Candidate;
  readonly distance: number;
}

/** The beats next to a candidate that are near enough for it to be their T or P. */
function besides(candidate: Candidate, taken: Taken): Beside[] {
  const found: Beside[] = [];
  const before = taken.before(candidate);
  const after = taken.after(candidate);
  if (before) {
    const distance = candidate.position - before.position;
    if (distance <= tWithin * searchRate) found.push({ beat: before, distance });
  }
  if (after) {
    const distance = candidate.position - after.position;
    if (-distance <= pWithin * searchRate) found.push({ beat: after, distance });
  }
  return found;
}

/**
 * Whether a candidate looks like the P of the beats around it: standing alone it is then the P of a
 * beat that was not conducted.
 */
export function looksLikeTheirP(
  candidate: Candidate,
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  const neighbours = taken.around(candidate, asked.atMost);
  const distances = [-0.1, -0.16].map((s) => Math.round(s * searchRate));
  return accompany(neighbours, candidate, distances, taken, leads);
}

/**
 * Whether at least half of the beats carry a like wave at one of these distances that is not a beat
 * itself: in a fast regular rhythm the next beat, too, comes at the same distance.
 */
function accompany(
  beats: readonly Candidate[],
  candidate: Candidate,
  distances: readonly number[],
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  const carrying = beats.filter((beat) =>
    distances.some((distance) => {
      const there = beat.position + distance;
      if (taken.hasWithin(there, play)) return false;
      const { alike, larger } = likeness(leads, candidate.position, there);
      return alike > 0.8 && larger > 0.5 && larger < 2;
    }),
  );
  return carrying.length > 0 && carrying.length >= beats.length / 2;
}
