import { average, level } from '../filter/excerpt.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { correlation } from '../filter/spread.js';
import { likeness, play, steepest, tallness } from './likeness.js';
import type { SearchLead } from './search-lead.js';
import type { Candidate, Taken } from './taken.js';

/** A T peaks within this time after its R (Pan and Tompkins 1985 look for it this far); in s. */
const tWithin = 0.36;
/** A P peaks within this time before its R; in s. */
const pWithin = 0.2;
/** Below this share of the beat's steepest slope it is no QRS (Pan and Tompkins 1985). */
export const gentle = 0.5;
/** Waves this much alike have one shape. */
const sameShape = 0.9;
/**
 * A wave so much taller or steeper than its beat is no T and no P. A T is up to about 1.2 times as
 * tall as its R; as much as 1.5 times after a narrow R was sampled at 100 Hz and band-passed.
 */
const taller = 1.7;
const steeper = 1.3;
/** A P is never as steep as the QRS that it leads to; a QRS before a wide early one is. */
const steepForP = 0.9;
/**
 * A beat of a ventricle may be as gentle as a T. It is as tall as the beat, as a T seldom is, and, as the ventricles are
 * stirred one after the other, it lasts longer, so that it is less alike than this; a P that is as tall lasts no longer.
 */
const broad = { asTall: 0.8, alike: 0.6 };
/** Neither QRS nor the rise of a T reaches farther than this from its peak; 80 ms in grid samples. */
const clear = Math.round(0.08 * searchRate);
/** An own T is at least this share of an early beat's height; between a QRS and a tall T less moves. */
const ownT = 0.08;
const toSteps = (s: number): number => Math.round(s * searchRate);
/**
 * A beat has a T of its own behind it, a T has not: so much of the wave's height, and more than a P, moves from this to this
 * long after it, as far as there is room before the next beat; s in grid samples.
 */
const behind = {
  from: toSteps(0.1),
  to: toSteps(0.3),
  beforeNext: toSteps(0.12),
  least: toSteps(0.07),
  share: 0.15,
  overP: 1.5,
};
/** Half of the time that a P lasts, and where its peak lies before R; in grid samples. */
const pHalf = toSteps(0.03);
/** What is broader than a P is seen to rise over this, in grid samples. */
const pRise = toSteps(0.06);
const pBefore = { most: toSteps(0.18), least: toSteps(0.055) };
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
  for (const { beat, distance } of besides(candidate, taken)) {
    const slope = steepest(leads, candidate.position) / steepest(leads, beat.position);
    const height = tallness(leads, candidate.position) / tallness(leads, beat.position);
    if (slope < gentle && !(height >= broad.asTall)) return 'companion';
    const { alike } = likeness(leads, beat.position, candidate.position);
    if (slope < gentle && alike >= broad.alike) return 'companion';
    if (alike >= sameShape) continue;
    const isSteep = slope > (distance < 0 ? steepForP : steeper);
    if (!(height > taller || isSteep)) verdict = 'unsure';
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
    const carrying = carriers(neighbours, candidate, [distance], taken, leads);
    if (!areMost(carrying, neighbours)) return false;
    return distance < 0 || !hasTBehind(candidate, [beat, ...carrying], distance, taken, leads);
  });
}

/** A T peaks no sooner after its R, in grid samples. */
const tFrom = toSteps(0.08);

/** Whether a readable stretch begins so shortly before a candidate that the beat whose T it may be lies before that. */
export function mayBeTOfUnseen({ position }: Candidate, leads: readonly SearchLead[]): boolean {
  const isSeen = (at: number): boolean =>
    leads.some(({ grid }) => !Number.isNaN(grid[at] ?? Number.NaN));
  for (let at = position; at >= position - tWithin * searchRate; at--) if (!isSeen(at)) return true;
  return false;
}

/** Whether such a candidate is far gentler than the beats around, and most of these carry its like where T stands. */
export function looksLikeTheirT(
  candidate: Candidate,
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  const neighbours = taken.around(candidate, asked.atMost);
  if (neighbours.length < asked.atLeast) return false;
  const slope = steepest(leads, candidate.position);
  const isGentler = (beat: Candidate): boolean =>
    slope < steepForP * steepest(leads, beat.position);
  if (!areMost(neighbours.filter(isGentler), neighbours)) return false;
  for (let distance = tFrom; distance <= tWithin * searchRate; distance += play) {
    if (areMost(carriers(neighbours, candidate, [distance], taken, leads), neighbours)) return true;
  }
  return false;
}

/** Whether behind the wave that these beats carry at a distance there is another, as a T is behind a beat. */
function hasTBehind(
  candidate: Candidate,
  beats: readonly Candidate[],
  distance: number,
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  let end = distance + behind.to;
  for (const beat of beats) {
    const next = taken.after(beat);
    if (next) end = Math.min(end, next.position - beat.position - behind.beforeNext);
  }
  const first = distance + behind.from;
  if (end - first < behind.least) return false;
  return leads.some(({ grid }) => {
    const moves = (from: number, to: number): number => {
      const rows = beats
        .map(({ position }) => grid.subarray(Math.max(0, position + from), position + to))
        .filter((row) => row.length === to - from && row.every((x) => !Number.isNaN(x)));
      return rows.length < asked.atLeast ? Number.NaN : span(level(average(rows)));
    };
    const { position } = candidate;
    const height = span(grid.subarray(position - clear, position + clear));
    const after = moves(first, end);
    return (
      after > behind.share * height && after > behind.overP * moves(-pBefore.most, -pBefore.least)
    );
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
 * beat that was not conducted. P is held against the averaged trace before these beats, over no more
 * than a P lasts, since in a cat the QRS follows at once.
 */
export function looksLikeTheirP(
  candidate: Candidate,
  taken: Taken,
  leads: readonly SearchLead[],
): boolean {
  const neighbours = taken.around(candidate, asked.atMost);
  return (
    areMost(
      carriers(neighbours, candidate, [-0.1, -0.16].map(toSteps), taken, leads),
      neighbours,
    ) || isLikeWaveBefore(candidate, neighbours, leads)
  );
}

/**
 * Whether a candidate looks like what stands before these beats in their average, where a P would, on one lead, and is no
 * more than twice as high on all of them: the tip of a broad beat of a ventricle has the look of a P, and on one lead
 * its height.
 */
export function isLikeWaveBefore(
  candidate: Candidate,
  beats: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const views = viewsOf(candidate, beats, leads);
  return views.some((view) => {
    const own = level(view.own.slice(pRise - pHalf));
    for (let at = pRise; at + pHalf < view.usual.length; at++) {
      const there = level(view.usual.slice(at - pHalf, at + pHalf + 1));
      const larger = span(own) / span(there);
      if (!(larger > 0.5 && larger < 2 && correlation(own, there) >= sameShape)) continue;
      if (heightOn(views, ownOf) < 2 * heightOn(views, usualAt(at))) return true;
    }
    return false;
  });
}

/** Whether a candidate is more than twice as high as all that moves in the average before these beats, P and the end of T. */
export function isHigherThanP(
  candidate: Candidate,
  beats: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const views = viewsOf(candidate, beats, leads);
  return views.length > 0 && heightOn(views, ownOf) > 2 * heightOn(views, ({ usual }) => usual);
}

/** Of one lead: a wave from its rise on, and the average before the beats. */
interface View {
  readonly own: Float64Array;
  readonly usual: Float64Array;
}

function viewsOf(
  { position }: Candidate,
  beats: readonly Candidate[],
  leads: readonly SearchLead[],
): readonly View[] {
  return leads.flatMap(({ grid }) => {
    const first = pBefore.most + pRise;
    const rows = beats
      .map((beat) => grid.slice(beat.position - first, beat.position - pBefore.least + pHalf + 1))
      .filter((row) => row.length > 0 && row.every((x) => !Number.isNaN(x)));
    const own = grid.slice(position - pRise, position + pHalf + 1);
    if (rows.length < asked.atLeast || own.length !== pRise + pHalf + 1) return [];
    return [{ own, usual: average(rows) }];
  });
}

const ownOf = ({ own }: View): Float64Array => own;
const usualAt =
  (at: number) =>
  ({ usual }: View): Float64Array =>
    usual.subarray(at - pRise, at + pHalf + 1);

/** On all leads together, as the length of the way in all of them. */
const heightOn = (views: readonly View[], rowOf: (view: View) => Float64Array): number =>
  Math.hypot(...views.map((view) => span(rowOf(view))));

/**
 * The beats that carry a like wave at one of these distances that is not a beat itself: in a fast regular rhythm the next
 * beat, too, comes at the same distance.
 */
function carriers(
  beats: readonly Candidate[],
  candidate: Candidate,
  distances: readonly number[],
  taken: Taken,
  leads: readonly SearchLead[],
): readonly Candidate[] {
  return beats.filter((beat) =>
    distances.some((distance) => {
      const there = beat.position + distance;
      if (taken.hasWithin(there, play)) return false;
      const { alike, larger } = likeness(leads, candidate.position, there);
      return alike > 0.8 && larger > 0.5 && larger < 2;
    }),
  );
}

/** At least half of them, and not none of none. */
const areMost = (some: readonly Candidate[], all: readonly Candidate[]): boolean =>
  some.length > 0 && some.length >= all.length / 2;
