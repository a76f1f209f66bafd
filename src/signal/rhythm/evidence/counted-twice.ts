import type { ShapeFamilies } from '../../beats/families.js';
import { share } from '../../filter/spread.js';
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

/**
 * Places of beats that may be the T wave of the beat before or the P wave of the beat after: gentler
 * than the usual QRS, of another shape than that beat, and no farther from it than T peaks after R; ventricles that
 * were stirred so shortly before do not answer.
 * (A P counted as a beat stands no farther before R; a premature beat on the T looks the same.)
 */
export function countedTwice(
  beats: readonly Pick<BeatWaves, 'time'>[],
  shapes: ShapeFamilies,
  patient: Patient,
): number[] {
  const reach = (intervalLimits(patient)?.tOver ?? QT_ELSEWHERE) - T_FALL;
  const steepest = Math.max(
    0,
    ...shapes.families.filter(({ members }) => members.length > 1).map((f) => f.steepness),
  );
  const isCompanionOf = (i: number, other: number): boolean => {
    const here = beats[i]!;
    const there = beats[other];
    return (
      there !== undefined &&
      Math.abs(there.time - here.time) <= reach &&
      shapes.of[i] !== shapes.of[other]
    );
  };
  const isGentle = shapes.families.map(({ steepness, members }) => {
    if (steepness < GENTLE * steepest) return true;
    if (members.length < NEARLY_ALL.count || !(steepness < GENTLE_AT_T * steepest)) return false;
    return share(members, (i) => isCompanionOf(i, i - 1)) >= NEARLY_ALL.share;
  });
  if (!isGentle.includes(true)) return [];
  return shapes.of.flatMap((family, i) =>
    isGentle[family] && (isCompanionOf(i, i - 1) || isCompanionOf(i, i + 1)) ? [i] : [],
  );
}
