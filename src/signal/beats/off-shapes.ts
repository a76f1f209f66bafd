import { median } from '../filter/spread.js';
import { dot, most, type QrsShapes } from './qrs-shapes.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Least correlation of a beat with the mixture: as well as a member fits its family. */
const FITS = 0.87;
/** So much better than either shape alone. */
const BETTER = 0.05;
/** How many other shapes are tried, the commonest first. */
const TRIED = 12;
/** Beats of the commonest shape that tell how much noise changes a beat. */
const ASKED = 32;
/** What noise does to the commonest shape, so many times, is no noise; and less than this share of the way is none either. */
const OVER_NOISE = 4;
const LEAST_CHANGE = 0.1;

interface Shape {
  readonly members: readonly { readonly beat: number; readonly shift: number }[];
  readonly template: Float64Array;
}

/** How a beat of another shape stands to the commonest shape. */
export interface OffShape {
  /** Correlation with the commonest shape, whatever their sizes. */
  readonly likeOwn: number;
  /** The family between which and the commonest it lies, as a position among the families; null where there is none. */
  readonly between: number | null;
  /** Whether the beats of its family lie at unequal distances from the commonest shape. */
  readonly changes: boolean;
  /** Whether the trace beside it is as beside the others (`undisturbed`). */
  readonly isCalm: boolean;
}

/**
 * Tells of a beat outside the largest family how it stands to that, null of its members; worked out when
 * it is asked. Where two fronts meet in the ventricles each part of them is stirred by one or the other,
 * and the trace is near the sum of parts of both. `families` largest first, `of` as in `ShapeFamilies`.
 */
export function offShapes(
  of: readonly number[],
  families: readonly Shape[],
  shapes: QrsShapes,
  isCalm: (beat: number) => boolean,
): (beat: number) => OffShape | null {
  const [own] = families;
  if (!own || own.members.length < 2) return () => null;
  const changing = remembered((family) => changes(families[family]!, own, shapes));
  return remembered((beat) => {
    const family = of[beat]!;
    if (family < 1) return null;
    return {
      ...between(beat, family, families, shapes),
      changes: changing(family),
      isCalm: isCalm(beat),
    };
  });
}

function between(
  beat: number,
  family: number,
  [own, ...others]: readonly Shape[],
  shapes: QrsShapes,
): Pick<OffShape, 'likeOwn' | 'between'> {
  let likeOwn = -1;
  let between: number | null = null;
  let bestFit = FITS;
  others.slice(0, TRIED).forEach(({ template }, i) => {
    const found = mixture(beat, own!.template, template, shapes);
    likeOwn = Math.max(likeOwn, found.one);
    if (i + 1 === family || found.fit < Math.max(found.one, found.two) + BETTER) return;
    if (found.fit < bestFit) return;
    bestFit = found.fit;
    between = i + 1;
  });
  return { likeOwn, between };
}

/** The same function, each answer worked out once. */
function remembered<T>(answer: (place: number) => T): (place: number) => T {
  const known = new Map<number, T>();
  return (place) => {
    const before = known.get(place);
    if (before !== undefined) return before;
    const now = answer(place);
    known.set(place, now);
    return now;
  };
}

/** Best correlations of a beat with two shapes and with what they sum to, both in it, over all shifts. */
function mixture(
  beat: number,
  first: Float64Array,
  second: Float64Array,
  shapes: QrsShapes,
): { readonly fit: number; readonly one: number; readonly two: number } {
  const one = shapes.seenWith(beat, first);
  const two = shapes.seenWith(beat, second);
  const aa = dot(one, one);
  const bb = dot(two, two);
  const ab = dot(one, two);
  const det = aa * bb - ab * ab;
  const part = shapes.blank();
  const best = { fit: 0, one: -1, two: -1 };
  for (let shift = -most; shift <= most; shift += 1) {
    shapes.cut(beat, shift, part);
    const power = dot(part, part);
    const a = dot(part, one);
    const b = dot(part, two);
    best.one = Math.max(best.one, a / Math.sqrt(aa * power));
    best.two = Math.max(best.two, b / Math.sqrt(bb * power));
    if (det <= 1e-6 * aa * bb) continue;
    const x = (a * bb - b * ab) / det;
    const y = (b * aa - a * ab) / det;
    if (x > 0 && y > 0) best.fit = Math.max(best.fit, Math.sqrt((x * a + y * b) / power));
  }
  return best;
}

/** Whether members lie at distances from the commonest shape that differ by more than noise makes them. */
function changes(family: Shape, own: Shape, shapes: QrsShapes): boolean {
  const way = family.template.map((value, i) => value - own.template[i]!);
  const length = dot(way, way);
  const part = shapes.blank();
  /** 0 at the commonest shape, 1 at the family's average. */
  const distances = (members: Shape['members']): number[] =>
    members
      .filter(({ beat }) => shapes.shows(beat) === 'all')
      .map(({ beat, shift }) => {
        shapes.cut(beat, shift, part);
        return (dot(part, way) - dot(own.template, way)) / length;
      });
  const usual = distances(own.members.slice(0, ASKED));
  const noise = median(usual.map(Math.abs)) / 0.6745;
  const there = distances(family.members);
  if (there.length < 2) return false;
  const range = Math.max(...there) - Math.min(...there);
  return range > Math.max(LEAST_CHANGE, OVER_NOISE * noise);
}
