import type { ShapeFamilies } from '../../beats/families.js';
import { differences, median, share } from '../../filter/spread.js';
import type { BeatWaves, Patient } from '../../marked-beat.js';
import { intervalLimits } from '../interval-limits.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** T peaks at least this long before it ends, s. */
const T_FALL = 0.02;
/** T and P are less steep than QRS: under half (Pan and Tompkins 1985), with room for tall T waves. */
const GENTLE = 0.6;
/** Noise makes a T look steeper: where nearly all of a shape stand where T does, under this. */
const GENTLE_AT_T = 0.9;
const NEARLY_ALL = { count: 3, share: 0.8 };
/** Reach of T where no QT range is at hand, s. From memory, unverified. */
const QT_ELSEWHERE = 0.15;

/** A wave so many times as tall as the T of the other beats is no T, if it also reaches this share of their QRS. Own choice. */
const NO_T = { times: 2, ofQrs: 0.5 };
/** Fewer T waves do not say how tall they are here. Own choice. */
const SEVERAL = 3;

/**
 * Places of beats that may be the T wave of the beat before or the P wave of the beat after: gentler
 * than the usual QRS, of another shape than that beat, and no farther from it than T peaks after R; ventricles that
 * were stirred so shortly before do not answer. What is taller by far than the T of the others is a beat on a T.
 * (A P counted as a beat stands no farther before R; a premature beat on the T looks the same.)
 */
export function countedTwice(
  beats: readonly Pick<BeatWaves, 'time' | 't'>[],
  shapes: ShapeFamilies,
  patient: Patient,
): number[] {
  const limits = intervalLimits(patient);
  const reach = (limits?.tOver ?? QT_ELSEWHERE) - T_FALL;
  // A beat without a T of its own may have a late one; that is followed by none.
  const farthest = (limits?.longestQt ?? QT_ELSEWHERE) - T_FALL;
  const steepest = Math.max(
    0,
    ...shapes.families.filter(({ members }) => members.length > 1).map((f) => f.steepness),
  );
  const isCompanionOf = (i: number, other: number): boolean => {
    const here = beats[i]!;
    const there = beats[other];
    return (
      there !== undefined &&
      Math.abs(there.time - here.time) <=
        (other < i && there.t === null && here.t === null ? farthest : reach) &&
      shapes.of[i] !== shapes.of[other]
    );
  };
  const isGentle = shapes.families.map(({ steepness, members }) => {
    if (steepness < GENTLE * steepest) return true;
    if (members.length < NEARLY_ALL.count || !(steepness < GENTLE_AT_T * steepest)) return false;
    return share(members, (i) => isCompanionOf(i, i - 1)) >= NEARLY_ALL.share;
  });
  if (!isGentle.includes(true)) return [];
  const places = shapes.of.flatMap((family, i) =>
    isGentle[family] && (isCompanionOf(i, i - 1) || isCompanionOf(i, i + 1)) ? [i] : [],
  );
  const tallest = tallestT(beats, places, shapes);
  // The T of a wide beat is taller than theirs.
  const isNoT = (i: number): boolean =>
    shapes.of[i - 1] === 0 && shapes.families[shapes.of[i]!]!.height > tallest;
  return places.filter((i) => !isNoT(i));
}

/** What a T may reach here, mV, by the T of beats that no such wave follows; without a limit where these are few. */
function tallestT(
  beats: readonly Pick<BeatWaves, 't'>[],
  places: readonly number[],
  shapes: ShapeFamilies,
): number {
  if (places.length === 0) return Number.POSITIVE_INFINITY;
  const doubted = new Set(places);
  const heights = beats.flatMap(({ t }, i) =>
    t && shapes.of[i] === 0 && !doubted.has(i) && !doubted.has(i + 1) ? [Math.abs(t.height)] : [],
  );
  if (heights.length < SEVERAL) return Number.POSITIVE_INFINITY;
  return Math.max(NO_T.times * median(heights), NO_T.ofQrs * (shapes.families[0]?.height ?? 0));
}

/** Of the beats, so few may stand where a T or P wave does, for the others to tell the rhythm without them. */
const STRAY = 0.1;
/** The others keep their time where the interval across one of these is off the usual one by no more than this share. */
const IN_TIME = 0.2;

/**
 * Whether the places that `countedTwice` gives are strays: few, and each between two beats that come on time as if
 * nothing stood between them. Ventricles that had answered there would not: what they do next comes late, or they do
 * not answer the atria. So no beat stood there, or one that left the rhythm as it was.
 */
export function areStrays(
  places: readonly number[],
  beats: readonly Pick<BeatWaves, 'time'>[],
): boolean {
  if (places.length > STRAY * beats.length) return false;
  const others = beats.filter((_, i) => !places.includes(i)).map(({ time }) => time);
  const usual = median(differences(others));
  return places.every((i) => {
    const before = beats[i - 1];
    const after = beats[i + 1];
    if (!before || !after || places.includes(i - 1) || places.includes(i + 1)) return false;
    return Math.abs((after.time - before.time) / usual - 1) <= IN_TIME;
  });
}
