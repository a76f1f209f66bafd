import type { ShapeFamilies, ShapeFamily } from '../../beats/families.js';
import type { MarkedBeat } from '../../marked-beat.js';
import { type Evidence, isFromAbove } from './evidence.js';

/**
 * Steepest slope over height, 1/s, of a stroke that lasts no longer than a narrow QRS: what makes it wide to the eye may be a
 * P at its edge, a J wave, a filter or a blocked branch. Own choice, not a clinical number.
 */
export const SHARP = 80;

/** Steepest slope of a QRS over its height, 1/s; 0 for none. */
export const sharpness = (family: ShapeFamily | undefined): number =>
  family ? family.steepness / family.height : 0;

/** Wide beats on time up to this share are told as such, beside the shape of the others. Own choice, not a clinical number. */
const FEW_WIDE = 0.2;

/**
 * The family of most beats from above; those that a jolt bends have no shape of their own, and a few wide ones on time
 * are no doubt about the others.
 */
export function mainFamily({ beats, above, shapes }: Evidence): { index: number; share: number } {
  const areFewWide = above.filter(isWideOnTime).length <= FEW_WIDE * above.length;
  const counts = new Map<number, number>();
  let judged = 0;
  for (let i = 0; i < beats.length; i += 1) {
    const beat = beats[i]!;
    if (!hasOwnShape(i, beat, shapes) || (areFewWide && isWideOnTime(beat))) continue;
    judged += 1;
    const family = shapes.of[i]!;
    if (family >= 0) counts.set(family, (counts.get(family) ?? 0) + 1);
  }
  const [index, most] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [-1, 0];
  return { index, share: judged > 0 ? most / judged : 0 };
}

const isWideOnTime = ({ kind }: MarkedBeat): boolean => kind === 'aberrant';

const hasOwnShape = (i: number, beat: MarkedBeat, shapes: ShapeFamilies): boolean =>
  isFromAbove(beat) && !(isBendable(beat) && shapes.of[i] !== 0 && shapes.off(i)?.isCalm === false);

const isBendable = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'unclassified' || kind === 'junctional escape';
