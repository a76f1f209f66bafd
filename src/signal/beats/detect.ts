import { type Seconds, seconds } from '../../units/brands.js';
import { medianOfFinite } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';
import type { BlockLevels } from '../quality/qrs-level.js';
import { type ReadableLead, readableLead } from '../quality/readable-lead.js';
import type { Channel } from '../waveform.js';
import { beatsBetweenPAndT, type LowBeat } from './between-p-and-t.js';
import { candidates } from './candidates.js';
import { clearOfNoise } from './clear-of-noise.js';
import {
  gentle,
  isHigherThanP,
  looksLikeTheirP,
  looksLikeTheirT,
  mayBeTOfUnseen,
  ownOrCompanion,
  returnsWithNeighbours,
} from './companion-wave.js';
import { likeness, steepest, tallness } from './likeness.js';
import { withoutP } from './p-among-beats.js';
import { prominence, restlessness } from './prominence.js';
import { type Deflections, deflections, pointsUp, rTime } from './r-peak.js';
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
/** What stands out less than this may be a T. */
const lowerThanBeats = 0.9;
/** Where a beat is overdue, this much is enough if it also looks like a beat nearby. */
const searchBackThreshold = threshold / 2;
/** A beat is overdue after so many usual intervals (Pan and Tompkins 1985: 166 %). */
const overdue = 1.66;
/** Likeness with a beat nearby that is asked of what stands out less or is cut. */
const alikeEnough = 0.7;
const alikeEnoughWhenCut = 0.9;
/** Or it is as tall as this share of the usual beat. */
const tallEnough = 0.8;
/** Or as this share of it, and is far higher than P. */
const tallEnoughForNoP = 0.4;
/** Two R peaks nearer than this are one; in s. */
const samePeak = 0.06;
/**
 * Where most R lie as far as this from what stands out most, that is another wave, a sharp P, and a QRS beside it is looked
 * for in each beat; in grid samples, 40 ms.
 */
const farAway = Math.round(0.04 * searchRate);
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
  // A low QRS is less tall than the P and T beside it, so that its place is all that is known of its R.
  const lowBeats = low.map(
    ({ position, lead }): Beat => ({ time: seconds(position / searchRate), lead }),
  );
  return [...placed(search, low.length > 0 ? notBeside(low, found) : found), ...lowBeats].sort(
    byTime,
  );
}

const notBeside = (low: readonly LowBeat[], found: readonly Candidate[]): Candidate[] =>
  found.filter(({ position }) => !low.some(({ from, to }) => from < position && position < to));

/** In order of time. */
function beatsAmong(leads: readonly SearchLead[]): readonly Candidate[] {
  const prominences = prominence(leads);
  const rest = restlessness(prominences);
  const all = candidates(prominences, searchBackThreshold / 2);
  const clear = clearOfNoise(all, rest, leads);
  // The usual beat is first taken from the largest slopes around, then from the beats found.
  const first = withoutP(taken(all, clear, ranked(clear, largest, rest), leads).beats(), leads);
  const second = taken(all, clear, ranked(clear, new UsualBeat(first), rest), leads).beats();
  return withoutP(second, leads);
}

/** A candidate with how far it rises above the rest between beats, as a share of what the usual beat does. */
interface Ranked {
  readonly candidate: Candidate;
  readonly share: number;
}

/** Prominence of the usual beat around a grid position. */
interface Usual {
  at(position: number): number;
}

const largest: Usual = { at: () => 1 };

/** Those that may be beats, the strongest first. */
function ranked(all: readonly Candidate[], usual: Usual, rest: BlockLevels): readonly Ranked[] {
  const out: Ranked[] = [];
  for (const candidate of all) addRanked(candidate, usual, rest, out);
  return out.sort(strongestFirst);
}

function addRanked(candidate: Candidate, usual: Usual, rest: BlockLevels, out: Ranked[]): void {
  const { position, prominence } = candidate;
  const still = rest.at(position);
  const share = (prominence - still) / (usual.at(position) - still);
  if (share >= searchBackThreshold) out.push({ candidate, share });
}

function strongestFirst(a: Ranked, b: Ranked): number {
  if (a.share !== b.share) return a.share > b.share ? -1 : 1;
  return a.candidate.position - b.candidate.position;
}

/** The middle prominence of the beats nearest to a grid position. */
class UsualBeat implements Usual {
  readonly #levels: Float64Array;
  readonly #positions: Int32Array;

  constructor(beats: readonly Candidate[]) {
    const prominences = new Float64Array(beats.length);
    this.#positions = new Int32Array(beats.length);
    this.#levels = new Float64Array(beats.length);
    for (let i = 0; i < beats.length; i++) {
      prominences[i] = beats[i]!.prominence;
      this.#positions[i] = beats[i]!.position;
    }
    for (let i = 0; i < beats.length; i++) {
      this.#levels[i] = medianOfFinite(
        prominences.subarray(Math.max(0, i - around), i + around + 1),
      );
    }
  }

  at(position: number): number {
    const positions = this.#positions;
    let next = 0;
    let end = positions.length;
    while (next < end) {
      const middle = (next + end) >> 1;
      if (positions[middle]! < position) next = middle + 1;
      else end = middle;
    }
    return this.#levels[Math.min(next, positions.length - 1)] ?? 1;
  }
}

/** Which of all candidates are beats, by those that may be. */
function taken(
  all: readonly Candidate[],
  clear: readonly Candidate[],
  strongest: readonly Ranked[],
  leads: readonly SearchLead[],
): Taken {
  const beats = new Taken(all);
  // Strongest first: a T or P is judged when the beat that it belongs to has been taken.
  const unsure: Candidate[] = [];
  for (const each of strongest) takeIfSure(each, beats, leads, unsure);
  // Asked when all sure beats are known, lest a beat not yet taken be mistaken for a T.
  for (const candidate of unsure) {
    if (isTheirT(candidate, beats, leads)) continue;
    if (!returnsWithNeighbours(candidate, beats, leads)) beats.add(candidate);
  }
  // What stands out less, or is cut, must look like a beat nearby.
  const search = new SearchBack(beats, leads);
  for (const each of strongest) search.take(each);
  search.takeTheirLike(clear);
  return beats;
}

/** Whether what a readable stretch begins with is the T of a beat before that. */
const isTheirT = (candidate: Candidate, beats: Taken, leads: readonly SearchLead[]): boolean =>
  mayBeTOfUnseen(candidate, leads) && looksLikeTheirT(candidate, beats, leads);

function takeIfSure(
  { candidate, share }: Ranked,
  beats: Taken,
  leads: readonly SearchLead[],
  unsure: Candidate[],
): void {
  if (share < threshold || !candidate.isWhole) return;
  const verdict = ownOrCompanion(candidate, beats, leads);
  if (verdict === 'companion') return;
  const isLow = share < lowerThanBeats && mayBeTOfUnseen(candidate, leads);
  if (verdict === 'unsure' || isLow) unsure.push(candidate);
  else beats.add(candidate);
}

/** Takes what stands out less, or is cut, where a beat is overdue. */
class SearchBack {
  /** Usual interval of the beats that were taken first, grid samples. */
  readonly #usual: number;
  readonly #end: number;
  /** Beats that stand out less and were taken: those of a ventricle are gentle. */
  readonly #weak: Candidate[] = [];

  constructor(
    private readonly beats: Taken,
    private readonly leads: readonly SearchLead[],
  ) {
    this.#usual = usualInterval(beats.beats().map(positionOf));
    this.#end = Math.max(...leads.map((lead) => lead.grid.length));
  }

  take({ candidate, share }: Ranked): void {
    const { beats, leads } = this;
    const isGentle = share < threshold;
    if (!isGentle && candidate.isWhole) return;
    if (isGentle && this.isBroad(candidate)) {
      beats.add(candidate);
      this.#weak.push(candidate);
      return;
    }
    if (isGentle && !this.isOverdue(candidate)) return;
    if (ownOrCompanion(candidate, beats, leads) !== 'own' && !this.isNoCompanion(candidate)) return;
    if (looksLikeTheirP(candidate, beats, leads)) return;
    if (isTheirT(candidate, beats, leads)) return;
    if (!looksLikeBeat(candidate, beats.around(candidate, around), leads)) return;
    beats.add(candidate);
    // A P that no QRS follows is as gentle, and lower.
    if (isGentle && isAsTall(candidate, beats.around(candidate, around), leads)) {
      this.#weak.push(candidate);
    }
  }

  /**
   * Takes what is the same wave as a gentle beat close by: in a run of wide beats the first that is taken leaves none
   * beside it overdue.
   */
  takeTheirLike(clear: readonly Candidate[]): void {
    const { beats, leads } = this;
    for (const beat of this.#weak) {
      const first = firstFrom(beat.position - sameWave.within, clear);
      for (let i = first; i < clear.length; i += 1) {
        const candidate = clear[i]!;
        if (candidate.position > beat.position + sameWave.within) break;
        if (beats.hasWithin(candidate.position, apartAtLeast)) continue;
        if (!isSameWave(beat, candidate, leads)) continue;
        const isCompanion = ownOrCompanion(candidate, beats, leads) === 'companion';
        if (isCompanion && returnsWithNeighbours(candidate, beats, leads)) continue;
        if (looksLikeTheirP(candidate, beats, leads)) continue;
        beats.add(candidate);
        // What is like this one in turn is found as the loop goes on.
        this.#weak.push(candidate);
      }
    }
  }

  /** Whether what is gentle and early is the broad wave of a ventricle: as tall as the beats around, unlike them, and no T or P of theirs. */
  private isBroad(candidate: Candidate): boolean {
    const { beats, leads } = this;
    const nearby = beats.around(candidate, around);
    if (!candidate.isWhole || !isAsTall(candidate, nearby, leads)) return false;
    if (beats.hasWithin(candidate.position, apartAtLeast)) return false;
    if (nearby.some((beat) => isGentleLike(candidate, beat, leads))) return false;
    const verdict = ownOrCompanion(candidate, beats, leads);
    if (verdict === 'companion') return false;
    if (verdict === 'unsure' && returnsWithNeighbours(candidate, beats, leads)) return false;
    return !looksLikeTheirP(candidate, beats, leads);
  }

  /**
   * Whether what is as gentle as a T stands behind a usual beat as none of the others has its T, and far higher than P: a
   * beat of a ventricle is gentle, and is not always as tall as the others. Behind a beat of another shape it may be its T.
   */
  private isNoCompanion(candidate: Candidate): boolean {
    const { beats, leads } = this;
    const before = beats.before(candidate);
    const nearby = beats.around(candidate, around);
    const isLikeBefore = (beat: Candidate): boolean =>
      likeness(leads, before!.position, beat.position).alike >= alikeEnough;
    return (
      before !== undefined &&
      candidate.isWhole &&
      tallnessOver(candidate, nearby, leads) >= tallEnoughForNoP &&
      isHigherThanP(candidate, nearby, leads) &&
      2 * nearby.filter(isLikeBefore).length >= nearby.length &&
      !returnsWithNeighbours(candidate, beats, leads)
    );
  }

  /** Whether a candidate lies where no beat has been taken for longer than is usual around it. */
  private isOverdue(candidate: Candidate): boolean {
    const { beats } = this;
    const before = beats.before(candidate)?.position ?? 0;
    const after = beats.after(candidate)?.position ?? this.#end;
    const local = usualInterval(
      beats
        .around(candidate, 2 * around)
        .map(positionOf)
        .sort(ascending),
    );
    const usual = Number.isNaN(local) ? this.#usual : Math.min(local, this.#usual * 2);
    return after - before > overdue * usual;
  }
}

/** Whether a wave has the shape of a beat that is far steeper, as P has of a narrow QRS. */
function isGentleLike(
  candidate: Candidate,
  beat: Candidate,
  leads: readonly SearchLead[],
): boolean {
  const slope = steepest(leads, candidate.position) / steepest(leads, beat.position);
  return slope < gentle && likeness(leads, beat.position, candidate.position).alike >= alikeEnough;
}

/** Two beats are never nearer than this; 0.1 s in grid samples. */
const apartAtLeast = Math.round(0.1 * searchRate);
/** Beats of one run stand no farther apart than this (40 beats/min), in grid samples, are so much alike, and of one size within this. */
const sameWave = { within: Math.round(1.5 * searchRate), alike: 0.9, size: 0.75 };

function isSameWave(beat: Candidate, other: Candidate, leads: readonly SearchLead[]): boolean {
  const { alike, larger } = likeness(leads, beat.position, other.position);
  return alike >= sameWave.alike && larger > sameWave.size && larger < 1 / sameWave.size;
}

/** Place of the first candidate at a position or behind it; they ascend. */
function firstFrom(position: number, candidates: readonly Candidate[]): number {
  let low = 0;
  let end = candidates.length;
  while (low < end) {
    const middle = (low + end) >> 1;
    if (candidates[middle]!.position < position) low = middle + 1;
    else end = middle;
  }
  return low;
}

const positionOf = ({ position }: Candidate): number => position;
const ascending = (a: number, b: number): number => a - b;

/** The middle distance of positions that ascend; NaN under two of them. */
function usualInterval(positions: readonly number[]): number {
  const intervals: number[] = [];
  for (let i = 1; i < positions.length; i++) intervals.push(positions[i]! - positions[i - 1]!);
  return medianOfFinite(intervals);
}

/** By its shape, or, as a wide beat is gentle but not small, by its height. */
function looksLikeBeat(
  candidate: Candidate,
  nearby: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const enough = candidate.isWhole ? alikeEnough : alikeEnoughWhenCut;
  return (
    (candidate.isWhole && isTallOrNoP(candidate, nearby, leads)) ||
    nearby.some((beat) => likeness(leads, beat.position, candidate.position).alike >= enough)
  );
}

function isAsTall(
  candidate: Candidate,
  nearby: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  return tallnessOver(candidate, nearby, leads) >= tallEnough;
}

/** Whether a wave that stands alone is as tall as the beats around, or half as tall and far higher than their P. */
function isTallOrNoP(
  candidate: Candidate,
  nearby: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const tall = tallnessOver(candidate, nearby, leads);
  return (
    tall >= tallEnough || (tall >= tallEnoughForNoP && isHigherThanP(candidate, nearby, leads))
  );
}

/** How tall a wave is, as a share of the usual beat around. */
function tallnessOver(
  candidate: Candidate,
  nearby: readonly Candidate[],
  leads: readonly SearchLead[],
): number {
  const usual = medianOfFinite(nearby.map((beat) => tallness(leads, beat.position)));
  return tallness(leads, candidate.position) / usual;
}

/** R times on the first lead that can be read at each beat, in order of time. */
function placed(leads: readonly SearchLead[], beats: readonly Candidate[]): Beat[] {
  const found = leads.map((lead) => deflectionsOn(lead, beats));
  const up = found.map(pointsUp);
  const out: Beat[] = [];
  for (let k = 0; k < beats.length; k++) {
    const beat = placedBeat(k, found, up);
    if (beat) out.push(beat);
  }
  return apart(out.sort(byTime));
}

/** Two candidates on the flanks of one wide QRS are placed on the same peak. */
function apart(beats: readonly Beat[]): Beat[] {
  const out: Beat[] = [];
  for (let i = 0; i < beats.length; i++) {
    if (i === 0 || beats[i]!.time - beats[i - 1]!.time > samePeak) out.push(beats[i]!);
  }
  return out;
}

const byTime = (a: Beat, b: Beat): number => a.time - b.time;

function deflectionsOn(
  lead: SearchLead,
  beats: readonly Candidate[],
): readonly (Deflections | null)[] {
  const out: (Deflections | null)[] = [];
  for (const { position } of beats) out.push(deflections(lead, position, 0));
  const away = usuallyAway(beats, out);
  if (Math.abs(away) < farAway) return out;
  return beats.map(({ position }) => deflections(lead, position, away));
}

/** How far behind what stands out most the R usually lies, in grid samples. */
function usuallyAway(beats: readonly Candidate[], found: readonly (Deflections | null)[]): number {
  const isUp = pointsUp(found);
  const away: number[] = [];
  for (let k = 0; k < beats.length; k++) {
    const there = found[k];
    if (there) away.push(rTime(there, isUp) * searchRate - beats[k]!.position);
  }
  return Math.round(medianOfFinite(away));
}

function placedBeat(
  k: number,
  found: readonly (readonly (Deflections | null)[])[],
  up: readonly boolean[],
): Beat | null {
  for (let lead = 0; lead < found.length; lead++) {
    const there = found[lead]![k];
    if (there) return { time: seconds(rTime(there, up[lead]!)), lead };
  }
  return null;
}
