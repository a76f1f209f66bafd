import { type Seconds, seconds } from '../../units/brands.js';
import { median } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { type ReadableLead, readableLead } from '../quality/readable-lead.js';
import type { Channel } from '../waveform.js';
import { beatsBetweenPAndT } from './between-p-and-t.js';
import { candidates } from './candidates.js';
import { clearOfNoise } from './clear-of-noise.js';
import { looksLikeTheirP, ownOrCompanion, returnsWithNeighbours } from './companion-wave.js';
import { likeness, tallness } from './likeness.js';
import { prominence, restlessness } from './prominence.js';
import { deflections, pointsUp, rTime } from './r-peak.js';
import { type SearchLead, searchLead } from './search-lead.js';
import { type Candidate, Taken } from './taken.js';

/** One heartbeat: a QRS complex. */
export interface Beat {
  /** Of the R peak (the main deflection, up or down), in s after the first sample. */
  readonly time: Seconds;
  /** Position in the given leads of the one on which the R peak was placed. */
  readonly lead: number;
}

/** A beat stands out at least this much, as a share of the usual beat above the rest between beats. */
const threshold = 0.3;
/** Where a beat is overdue, this much is enough if it also looks like a beat nearby. */
const searchBackThreshold = threshold / 2;
/** A beat is overdue after so many usual intervals (Pan and Tompkins 1985: 166 %). */
const overdue = 1.66;
/** Likeness with a beat nearby that is asked of what stands out less or is cut. */
const alikeEnough = 0.7;
const alikeEnoughWhenCut = 0.9;
/** Or it is as tall as this share of the usual beat. */
const tallEnough = 0.8;
/** Two R peaks nearer than this are one; in s. */
const samePeak = 0.06;
/** Beats on either side that say what is usual. */
const around = 8;

/**
 * The R peaks of a strip, in order of time, from all given leads together (in mV, beginning at the
 * same instant; rates of 100 Hz and more, not necessarily equal). No beat lies in a stretch that
 * cannot be read in any lead. Works on 20-300 beats/min without being told the species.
 *
 * After Pan J, Tompkins WJ (1985), A real-time QRS detection algorithm, IEEE Trans Biomed Eng
 * BME-32:230-236: band-pass, slope, square, moving average, adaptive threshold, search-back with
 * half the threshold after 166 % of the usual interval, and T told by less than half of the slope.
 * It departs from it in that
 * - the whole strip is known, so filters run without delay and levels look both ways;
 * - the band is 11-34 Hz (there 5-15) and the average 60 ms (there 150), because the QRS of dogs
 *   and cats lasts 40-60 ms;
 * - the root of the averaged square is used, so that twice the height is twice the feature, and
 *   levels are medians, so that one large beat does not hide the next;
 * - there is no fixed refractory time but 0.1 s, and a T is told by shape and recurrence as well;
 * - leads are combined before the threshold.
 */
export function detectBeats(leads: readonly Channel[]): Beat[] {
  return beatsOn(leads.map(readableLead));
}

/** The same on leads of which is known what can be read. */
export function beatsOn(leads: readonly ReadableLead[]): Beat[] {
  const search = leads.map(searchLead);
  if (search.length === 0) return [];
  const found = beatsAmong(search);
  const low = beatsBetweenPAndT(found, search);
  const isBesideLow = ({ position }: Candidate): boolean =>
    low.some(({ from, to }) => from < position && position < to);
  // A low QRS is less tall than the P and T beside it, so that its place is all that is known of its R.
  const lowBeats = low.map(
    ({ position, lead }): Beat => ({ time: seconds(position / searchRate), lead }),
  );
  return [
    ...placed(
      search,
      found.filter((c) => !isBesideLow(c)),
    ),
    ...lowBeats,
  ].sort((a, b) => a.time - b.time);
}

/** In order of time. */
function beatsAmong(leads: readonly SearchLead[]): Candidate[] {
  const prominences = prominence(leads);
  const rest = restlessness(prominences);
  const all = clearOfNoise(candidates(prominences, searchBackThreshold / 2), rest, leads);
  // The usual beat is first taken from the largest slopes around, then from the beats found.
  const first = taken(all, all.map(aboveRest(() => 1, rest)), leads).beats();
  return taken(all, all.map(aboveRest(usualAmong(first), rest)), leads).beats();
}

/** How far a candidate rises above the rest between beats, as a share of what the usual beat does. */
const aboveRest =
  (usual: (position: number) => number, rest: (position: number) => number) =>
  ({ position, prominence }: Candidate) =>
    (prominence - rest(position)) / (usual(position) - rest(position));

/** The middle prominence of the beats nearest to a grid position. */
function usualAmong(beats: readonly Candidate[]): (position: number) => number {
  const prominences = Float64Array.from(beats, ({ prominence }) => prominence);
  const levels = Float64Array.from(beats, (_, i) =>
    median(prominences.subarray(Math.max(0, i - around), i + around + 1)),
  );
  const positions = Int32Array.from(beats, ({ position }) => position);
  return (position) => {
    let next = 0;
    let end = positions.length;
    while (next < end) {
      const middle = (next + end) >> 1;
      if (positions[middle]! < position) next = middle + 1;
      else end = middle;
    }
    return levels[Math.min(next, levels.length - 1)] ?? 1;
  };
}

/** The candidates that are beats; `shares[i]` tells how much `all[i]` rises above the rest. */
function taken(
  all: readonly Candidate[],
  shares: readonly number[],
  leads: readonly SearchLead[],
): Taken {
  const end = Math.max(...leads.map((lead) => lead.grid.length));
  const strongestFirst = all
    .map((candidate, i) => ({ candidate, share: shares[i]! }))
    .filter(({ share }) => share >= searchBackThreshold)
    .sort((a, b) => b.share - a.share || a.candidate.position - b.candidate.position);
  const beats = new Taken(all);
  // Strongest first: a T or P is judged when the beat that it belongs to has been taken.
  const unsure: Candidate[] = [];
  for (const { candidate, share } of strongestFirst) {
    if (share < threshold || !candidate.isWhole) continue;
    const verdict = ownOrCompanion(candidate, beats, leads);
    if (verdict === 'own') beats.add(candidate);
    if (verdict === 'unsure') unsure.push(candidate);
  }
  // Asked when all sure beats are known, lest a beat not yet taken be mistaken for a T.
  for (const candidate of unsure) {
    if (!returnsWithNeighbours(candidate, beats, leads)) beats.add(candidate);
  }
  // What stands out less, or is cut, must look like a beat nearby.
  const isOverdue = overdueAmong(beats.beats(), end);
  for (const { candidate, share } of strongestFirst) {
    const isWeak = share < threshold;
    if (!isWeak && candidate.isWhole) continue;
    if (isWeak && !isOverdue(candidate, beats)) continue;
    if (ownOrCompanion(candidate, beats, leads) !== 'own') continue;
    if (looksLikeTheirP(candidate, beats, leads)) continue;
    if (looksLikeBeat(candidate, beats.around(candidate, around), leads)) beats.add(candidate);
  }
  return beats;
}

/** By its shape, or, as a wide beat is gentle but not small, by its height. */
function looksLikeBeat(
  candidate: Candidate,
  nearby: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const enough = candidate.isWhole ? alikeEnough : alikeEnoughWhenCut;
  const usualHeight = median(nearby.map((beat) => tallness(leads, beat.position)));
  return (
    (candidate.isWhole && tallness(leads, candidate.position) >= tallEnough * usualHeight) ||
    nearby.some((beat) => likeness(leads, beat.position, candidate.position).alike >= enough)
  );
}

/** Whether a candidate lies where no beat has been taken for longer than is usual around it. */
function overdueAmong(
  first: readonly Candidate[],
  end: number,
): (candidate: Candidate, beats: Taken) => boolean {
  const usual = median(first.slice(1).map((beat, i) => beat.position - first[i]!.position));
  return (candidate, beats) => {
    const near = beats.around(candidate, 2 * around).map((beat) => beat.position);
    near.sort((a, b) => a - b);
    const local = median(near.slice(1).map((position, i) => position - near[i]!));
    const before = beats.before(candidate)?.position ?? 0;
    const after = beats.after(candidate)?.position ?? end;
    return after - before > overdue * (Number.isNaN(local) ? usual : Math.min(local, usual * 2));
  };
}

/** R times on the first lead that can be read at each beat, in order of time. */
function placed(leads: readonly SearchLead[], beats: readonly Candidate[]): Beat[] {
  const found = leads.map((lead) => beats.map(({ position }) => deflections(lead, position)));
  const up = found.map(pointsUp);
  const out: Beat[] = [];
  beats.forEach((_, k) => {
    const lead = found.findIndex((deflectionsOfLead) => deflectionsOfLead[k] !== null);
    const deflection = found[lead]?.[k];
    if (deflection) out.push({ time: seconds(rTime(deflection, up[lead]!)), lead });
  });
  out.sort((a, b) => a.time - b.time);
  // Two candidates on the flanks of one wide QRS are placed on the same peak.
  return out.filter((beat, i) => i === 0 || beat.time - out[i - 1]!.time > samePeak);
}
