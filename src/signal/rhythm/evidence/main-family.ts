import type { ShapeFamilies, ShapeFamily } from '../../beats/families.js';
import { prOf } from '../../beats/leading-p.js';
import { median, share } from '../../filter/spread.js';
import type { MarkedBeat, Patient } from '../../marked-beat.js';
import { EQUAL_PR } from '../interval-limits.js';
import { type Evidence, isFromAbove } from './evidence.js';

/**
 * Steepest slope over height, 1/s, of a stroke that lasts no longer than a narrow QRS: what makes it wide to the eye may be a
 * P at its edge, a J wave, a filter or a blocked branch. Own choice, not a clinical number.
 */
export const SHARP = 80;

/** A narrow stroke of few values a second is no steeper than this share of them, and hardly one of a ventricle is as steep. Own choice, not a clinical number. */
const OF_RATE = 0.66;

/** The least sharpness that counts as sharp at a sampling rate, 1/s. @param limit where there are values enough */
export const sharpFrom = (limit: number, samplingRate: number): number =>
  Math.min(limit, OF_RATE * samplingRate);

/** Steepest slope of a QRS over its height, 1/s; 0 for none. */
export const sharpness = (family: ShapeFamily | undefined): number =>
  family ? family.steepness / family.height : 0;

/** Wide beats on time up to this share are told as such, beside the shape of the others. Own choice, not a clinical number. */
const FEW_WIDE = 0.2;
/** More of them are, where P stands at the PR of the others before each, save for a wave missed in noise. Own choice, not a clinical number. */
const EACH_WIDE = 0.95;

/** So many of the beats, at least, have a shape that is the heart's own beside a commoner one of ventricles. Own choice, not a clinical number. */
const OWN = 1 / 3;

/**
 * The family of most beats from above; those that a jolt bends have no shape of their own, and wide ones on time are no
 * doubt about the others where they are few or P leads to them as it does to the others.
 */
export function mainFamily(evidence: Evidence): { index: number; share: number } {
  const { beats, above, shapes, patient } = evidence;
  const wide = above.filter(isWideOnTime);
  const areApart =
    wide.length <= FEW_WIDE * above.length ||
    areLedAlike(
      wide,
      above.filter((beat) => !isWideOnTime(beat)),
      patient,
    );
  const isJudged = (beat: MarkedBeat): boolean =>
    isFromAbove(beat) && !(areApart && isWideOnTime(beat));
  const ofAll = familiesOf(beats, shapes, isJudged);
  const usual = ofAll.length >= OWN * beats.length ? commonest(ofAll).index : 0;
  const judged = familiesOf(
    beats,
    shapes,
    (beat, i) => isJudged(beat) && hasOwnShape(i, beat, shapes, usual),
  );
  const { index, count } = commonest(judged);
  return { index, share: judged.length > 0 ? count / judged.length : 0 };
}

/** Families of the beats that are asked for, one for each. */
function familiesOf(
  beats: readonly MarkedBeat[],
  { of }: ShapeFamilies,
  isAsked: (beat: MarkedBeat, i: number) => boolean,
): number[] {
  const families: number[] = [];
  for (let i = 0; i < beats.length; i += 1) if (isAsked(beats[i]!, i)) families.push(of[i]!);
  return families;
}

/** The family that most beats belong to, and how many; -1 and 0 where none belongs to any. */
function commonest(families: readonly number[]): { index: number; count: number } {
  const counts = new Map<number, number>();
  for (const family of families) {
    if (family >= 0) counts.set(family, (counts.get(family) ?? 0) + 1);
  }
  const [index, count] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [-1, 0];
  return { index, count };
}

/**
 * Whether P leads to wide beats as it does to the narrow ones beside them, as where a branch of the bundle is blocked for
 * a while. A ventricle that begins by itself does so before P has come through: at a PR that is shorter, and each time
 * another.
 */
function areLedAlike(
  wide: readonly MarkedBeat[],
  others: readonly MarkedBeat[],
  { species }: Patient,
): boolean {
  const usual = median(others.map(prOf).filter((pr) => pr !== null));
  const near = EQUAL_PR[species];
  return share(wide, (beat) => Math.abs((prOf(beat) ?? Number.NaN) - usual) <= near) >= EACH_WIDE;
}

const isWideOnTime = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

/** @param usual the shape of most beats from above, which is not the commonest of all where each second beat is a ventricle's */
const hasOwnShape = (i: number, beat: MarkedBeat, shapes: ShapeFamilies, usual: number): boolean =>
  !(isBendable(beat) && shapes.of[i] !== usual && shapes.off(i)?.isCalm === false);

const isBendable = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'unclassified' || kind === 'junctional escape';
