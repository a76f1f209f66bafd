import type { Drawing, Mark, Point } from '../drawing.js';
import { moved } from '../moved.js';
import { atria } from './atria.js';
import { heartInks } from './inks.js';
import { type HeartLabel, heartLabels } from './labels.js';
import { currentsWay, type PathPart } from './path.js';
import { HEART, HEART_AT } from './place.js';
import { valve } from './valves.js';
import { ventricles } from './ventricles.js';
import { aortaInFront, mouthsOfVeins, pulmonaryTrunk, vesselsBehind } from './vessels.js';

/** What a drawing of the heart shows: its labels, and how far a beat has come. */
export interface HeartPicture {
  readonly labels: Readonly<Record<HeartLabel, string>>;
  /** Share of the atria and of the ventricles that the front has crossed, 0 to 1. */
  readonly atria?: number;
  readonly ventricles?: number;
  /** True while the ventricles recover. */
  readonly recovering?: boolean;
  /** What of the current's own way carries it. */
  readonly path?: readonly PathPart[];
}

/**
 * The heart cut open from the front, the patient's right on the left: chambers with their walls, valves, great vessels
 * and the way of the current. Each mark bears the name of its part.
 */
export function heart(picture: HeartPicture): Drawing {
  const marks: Mark[] = [
    ...vesselsBehind(),
    ...atria(picture.atria ?? 0),
    ...mouthsOfVeins(),
    ...ventricles(
      picture.ventricles ?? 0,
      picture.recovering ? heartInks.recovering : heartInks.excited,
    ),
    ...valve('mitral'),
    ...aortaInFront(),
    ...valve('aortic'),
    ...pulmonaryTrunk(),
    ...valve('pulmonary'),
    ...valve('tricuspid'),
    ...currentsWay(picture.path ?? []),
  ];
  return {
    ...HEART,
    marks: [
      ...moved(marks, ...HEART_AT).map(rounded),
      ...heartLabels(picture.labels, HEART, HEART_AT),
    ],
  };
}

/** To a hundredth of a millimetre: a picture without a scale needs no more. */
function rounded(mark: Mark): Mark {
  return mark.kind === 'line' || mark.kind === 'area'
    ? { ...mark, points: mark.points.map(([x, y]): Point => [hundredth(x), hundredth(y)]) }
    : mark;
}

const hundredth = (value: number): number => Math.round(value * 100) / 100;
