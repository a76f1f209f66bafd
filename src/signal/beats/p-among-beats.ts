import { searchRate } from '../filter/qrs-steepness.js';
import { median } from '../filter/spread.js';
import { isLikeWaveBefore } from './companion-wave.js';
import { freeP } from './free-p.js';
import { likeness, steepest, tallness } from './likeness.js';
import type { SearchLead } from './search-lead.js';
import type { Candidate } from './taken.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** A P that was counted is lower than this share of the QRS around it; breath and coarse sampling lower a QRS less. */
const LOWER = 0.55;
/** Beats to either side among which the taller ones are looked for, and how many of them say what is usual. */
const AROUND = 12;
const ENOUGH = 3;
/** Half of a narrow QRS with its search for the tip, 30 ms in grid samples. */
const HALF_QRS = Math.round(0.03 * searchRate);
/** A P may look sharper than a QRS by this factor where the recorder has smoothed both. */
const SHARPER = 1.1;
/**
 * Steepest slope over height, 1/s, on what the shapes are compared on: a narrow QRS lies over this, one of a ventricle and the
 * waves of a fast or fibrillating one under it. Those swell and ebb, and none of them is a P.
 */
const NARROW = 50;
const toSteps = (s: number): number => Math.round(s * searchRate);
/** P peaks no longer before R than this and stands nearer to it than to the beat before, by this factor; s. */
const PR = { most: toSteps(0.2), nearer: 1.33 };
/** The same wave stands before the others as long, within this; 20 ms in grid samples. */
const SAME_TIME = toSteps(0.02);
const ALIKE = { least: 0.8, smaller: 0.5, larger: 2 };
/** What nothing but its look tells must be more alike. */
const SAME = { least: 0.9, smaller: 0.67, larger: 1.5 };
/** T lies from this to this long after R; less of it than the least tells nothing. P and QRS of the next beat need the room; s. */
const T = {
  from: toSteps(0.08),
  to: toSteps(0.3),
  least: toSteps(0.1),
  beforeNext: toSteps(0.2),
  beforeP: toSteps(0.05),
};
/** A beat of some size has a T of that size; what moves less than this share of it has none. */
const NO_T = 0.5;
/** Noise may look like that much of its T. What moves less, and looks like the P of the others, is one. */
const ALMOST_T = 0.8;

/**
 * The beats without those that are P waves. A low QRS that lasts 20 to 30 ms is no steeper than P once both went through
 * the filters of the recorder and of the search, and a P that stands alone has no QRS beside it to be held against. But a P
 * is lower than the QRS around it, and either leads to one of them as the same wave leads to most others, or stands alone
 * and has no T, as it is not followed, or looks like those that do. Beside the wide beats of a ventricle a P is the shorter
 * wave, and told by its time (`freeP`).
 */
export function withoutP(
  beats: readonly Candidate[],
  leads: readonly SearchLead[],
): readonly Candidate[] {
  const heights = beats.map(({ position }) => heightOver(leads, position));
  const verdicts = beats.map((_, i) => verdictOn(i, beats, heights, leads));
  const proven = verdicts.flatMap((verdict, i) => (verdict === 'P' ? [i] : []));
  const free = freeP(beats, verdicts.map(isShort), heights, LOWER);
  if (proven.length === 0 && free.size === 0) return beats;
  return beats.filter(
    (_, i) =>
      verdicts[i] !== 'P' &&
      !free.has(i) &&
      !(verdicts[i] === 'low' && isLikeMost(i, proven, beats, leads)),
  );
}

/** Whether a beat looks like most of those nearby that are known to be P. */
function isLikeMost(
  i: number,
  proven: readonly number[],
  beats: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const near = proven.filter((k) => Math.abs(k - i) <= AROUND);
  if (near.length < ENOUGH) return false;
  const like = near.filter((k) => {
    const { alike, larger } = likeness(leads, beats[k]!.position, beats[i]!.position);
    return alike >= SAME.least && larger > SAME.smaller && larger < SAME.larger;
  });
  return 2 * like.length >= near.length;
}

/** A P, or low enough to be one; low and shorter than the beats around it; or a beat. */
type Verdict = 'P' | 'low' | 'short' | 'beat';

const isShort = (verdict: Verdict): boolean => verdict === 'short';

function verdictOn(
  i: number,
  beats: readonly Candidate[],
  heights: readonly number[],
  leads: readonly SearchLead[],
): Verdict {
  const taller = tallerAround(i, beats, heights);
  if (taller.length < ENOUGH) return 'beat';
  const { position } = beats[i]!;
  const sharpness = (k: number): number => {
    const { position: at } = beats[k]!;
    return steepest(leads, at) / tallness(leads, at);
  };
  const sharpnessOfTaller = median(taller.map(sharpness));
  if (sharpness(i) > SHARPER * sharpnessOfTaller) return 'short';
  if (!(sharpnessOfTaller >= NARROW)) return 'beat';
  const others = taller.map((k) => beats[k]!);
  const next = beats[i + 1]?.position ?? Number.POSITIVE_INFINITY;
  const before = beats[i - 1]?.position ?? Number.NEGATIVE_INFINITY;
  if (next - position <= PR.most) {
    return taller.includes(i + 1) &&
      position - before > PR.nearer * (next - position) &&
      leadsToMost(position, next - position, others, leads)
      ? 'P'
      : 'low';
  }
  const usual = median(taller.map((k) => heights[k]!));
  const size = heights[i]! / usual;
  const room = (k: number): number => roomForT(k, beats, heights, LOWER * usual);
  // Of the others those tell that have as much room, and enough of them must have it.
  const rooms = taller.map(room).sort((a, b) => b - a);
  const seen = Math.min(T.to, room(i), rooms[ENOUGH - 1]!);
  const roomy = taller.flatMap((k) => (room(k) >= seen ? [beats[k]!] : []));
  const t = shareOfT(position, seen, roomy, leads);
  return t < NO_T * size || (t < ALMOST_T * size && isLikeWaveBefore(beats[i]!, others, leads))
    ? 'P'
    : 'low';
}

/**
 * From trough to peak as the leads were recorded, mV, as the length of the way in all of them: a lead on which QRS is small
 * has little to say. NaN where one of them cannot be read.
 */
function heightOver(leads: readonly SearchLead[], position: number): number {
  let sum = 0;
  for (const { samples, samplingRate } of leads) {
    const step = samplingRate / searchRate;
    const from = Math.max(0, Math.round((position - HALF_QRS) * step));
    const end = Math.min(samples.length, Math.round((position + HALF_QRS) * step) + 1);
    let low = Number.POSITIVE_INFINITY;
    let high = Number.NEGATIVE_INFINITY;
    for (let i = from; i < end; i += 1) {
      const x = samples[i]!;
      if (x < low) low = x;
      if (x > high) high = x;
    }
    if (!(high > low)) return Number.NaN;
    sum += (high - low) ** 2;
  }
  return Math.sqrt(sum);
}

/** Places of the beats nearby that are clearly taller. */
function tallerAround(
  i: number,
  beats: readonly Candidate[],
  heights: readonly number[],
): readonly number[] {
  const out: number[] = [];
  const end = Math.min(beats.length, i + AROUND + 1);
  for (let k = Math.max(0, i - AROUND); k < end; k += 1) {
    if (heights[i]! < LOWER * heights[k]!) out.push(k);
  }
  return out;
}

/** Whether a like wave stands as long before most of the others. */
function leadsToMost(
  position: number,
  ahead: number,
  others: readonly Candidate[],
  leads: readonly SearchLead[],
): boolean {
  const like = others.filter((other) => {
    const { alike, larger, shift } = likeness(leads, position, other.position - ahead);
    return (
      alike > ALIKE.least &&
      larger > ALIKE.smaller &&
      larger < ALIKE.larger &&
      Math.abs(shift) <= SAME_TIME
    );
  });
  return 2 * like.length >= others.length;
}

/** From a beat to where the next begins, or what may be its P: what is `low` may be one itself. */
function roomForT(
  k: number,
  beats: readonly Candidate[],
  heights: readonly number[],
  low: number,
): number {
  const next = beats[k + 1];
  if (!next) return Number.POSITIVE_INFINITY;
  const isLow = heights[k + 1]! < low;
  return next.position - beats[k]!.position - (isLow ? T.beforeP : T.beforeNext);
}

/**
 * How far the trace moves where T would be, as a share of how far it does behind the others, in the lead where that is
 * most; NaN where there is no room to see it. Positions and distances are grid samples.
 */
function shareOfT(
  position: number,
  room: number,
  others: readonly Candidate[],
  leads: readonly SearchLead[],
): number {
  const length = Math.min(T.to, room) - T.from;
  if (length < T.least) return Number.NaN;
  let usual = 0;
  let own = Number.NaN;
  for (const { grid } of leads) {
    const moves = (at: number): number => bulge(grid, at + T.from, length);
    const middle = median(others.map((other) => moves(other.position)));
    if (!(middle > usual)) continue;
    usual = middle;
    own = moves(position);
  }
  return own / usual;
}

/** How far the trace strays from a straight line at most, without hum; NaN where it cannot be read. */
function bulge(values: Float64Array, from: number, length: number): number {
  const end = from + length;
  if (from < 0 || end + SMOOTHED > values.length) return Number.NaN;
  const first = meanFrom(values, from);
  const slope = (meanFrom(values, end - 1) - first) / (length - 1);
  let low = 0;
  let high = 0;
  for (let i = 1; i < length; i += 1) {
    const x = meanFrom(values, from + i) - first - slope * i;
    if (Number.isNaN(x)) return x;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  return high - low;
}

/** One cycle of 50 Hz, and nearly one of 60 Hz, in grid samples. */
const SMOOTHED = toSteps(0.02);

function meanFrom(values: Float64Array, from: number): number {
  let sum = 0;
  for (let i = from; i < from + SMOOTHED; i += 1) sum += values[i]!;
  return sum / SMOOTHED;
}
