import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { wrapped } from '../text-width.js';
import {
  atrialPaths,
  avNode,
  bundle,
  leftBranch,
  leftWall,
  rightBranch,
  rightWall,
  sinusNode,
  vessels,
  within,
} from './shape.js';

/** What is pointed at, on which side its words stand, in mm of the heart. */
const AT = {
  cranialVenaCava: ['left', vessels.cranialVenaCava.middle(0.3)],
  sinusNode: ['left', sinusNode],
  rightAtrium: ['left', [36.5, 50.5]],
  atrialPaths: ['left', atrialPaths[0]?.(0.28) as Point],
  avNode: ['left', avNode],
  tricuspidValve: ['left', [40.4, 69]],
  caudalVenaCava: ['left', vessels.caudalVenaCava.middle(0.3)],
  rightVentricle: ['left', [48, 72.5]],
  rightBranch: ['left', rightBranch(0.75)],
  rightWall: ['left', within(rightWall, 0.6, 0.62, 0.62)(0)],
  septum: ['left', within(leftWall, 0.55, 0.34, 0.34)(0)],
  aorta: ['right', vessels.aorta.middle(0.62)],
  pulmonaryTrunk: ['right', vessels.pulmonaryTrunk.middle(0.72)],
  pulmonaryValve: ['right', vessels.pulmonaryTrunk.middle(0.4)],
  pulmonaryVeins: ['right', vessels.pulmonaryVeinAbove.middle(0.3)],
  leftAtrium: ['right', [80, 51]],
  aorticValve: ['right', vessels.aorta.middle(0.06)],
  mitralValve: ['right', [80.6, 65.6]],
  bundle: ['right', bundle(0.75)],
  leftBranch: ['right', leftBranch(0.5)],
  leftVentricle: ['right', [73, 80]],
  leftWall: ['right', within(leftWall, 0.6, 0.78, 0.78)(0)],
  ends: ['right', within(leftWall, 0.16, 0.6, 0.6)(0)],
} as const satisfies Record<string, readonly ['left' | 'right', Point]>;

/** Words about the current alone: they stand aside where the blood is shown. */
const OF_CURRENT: ReadonlySet<string> = new Set([
  'sinusNode',
  'atrialPaths',
  'avNode',
  'bundle',
  'rightBranch',
  'leftBranch',
  'ends',
  'rightWall',
  'leftWall',
  'septum',
] satisfies (keyof typeof AT)[]);

/** A part of the heart that the drawing names. */
export type HeartLabel = keyof typeof AT;
/** All parts that the drawing names, as the words of each language must. */
export const HEART_LABELS = Object.keys(AT) as readonly HeartLabel[];

/** Em square, mm: still read on a telephone, where the picture shrinks by a quarter. */
const SIZE = 4;
const LEADING = 4.2;
/** Width of the words on either side, mm. */
const COLUMN = 26.5;
const AIR = 1;
const GAP = 1.2;

interface Placed {
  readonly lines: readonly string[];
  readonly at: Point;
  readonly isOfCurrent: boolean;
  top: number;
}

/** Words on both sides in the order in which what they point at lies, each with a thin line to it. */
export function heartLabels(
  words: Readonly<Record<HeartLabel, string>>,
  { width, height }: { readonly width: number; readonly height: number },
  [dx, dy]: Point,
): Mark[] {
  return (['left', 'right'] as const).flatMap((side) => {
    const column = HEART_LABELS.filter((label) => AT[label][0] === side).map((label): Placed => {
      const lines = wrapped(words[label], SIZE, COLUMN);
      if (!lines) throw new Error(`a label of the heart is too wide: ${words[label]}`);
      const [x, y] = AT[label][1];
      return { lines, at: [x + dx, y + dy], isOfCurrent: OF_CURRENT.has(label), top: 0 };
    });
    spread(column, height);
    return column.flatMap((label) => drawn(label, side, width));
  });
}

/** Each as near as can be to the height of what it points at, none over another, all within the picture. */
function spread(column: Placed[], height: number): void {
  const tall = ({ lines }: Placed) => lines.length * LEADING;
  column.sort((a, b) => a.at[1] - b.at[1]);
  let floor = 0.4;
  for (const label of column) {
    label.top = Math.max(floor, label.at[1] - tall(label) / 2);
    floor = label.top + tall(label) + AIR;
  }
  let ceiling = height - 0.8;
  for (const label of [...column].reverse()) {
    label.top = Math.min(label.top, ceiling - tall(label));
    ceiling = label.top - AIR;
  }
}

function drawn(
  { lines, at, top, isOfCurrent }: Placed,
  side: 'left' | 'right',
  width: number,
): Mark[] {
  const isLeft = side === 'left';
  const kind = isOfCurrent ? ' current' : '';
  const edge = isLeft ? COLUMN : width - COLUMN;
  const middle = top + (lines.length * LEADING) / 2;
  const out = isLeft ? 1 : -1;
  const points: Point[] = [[edge + out * GAP, middle], [edge + out * (GAP + 2), middle], at];
  return [
    {
      kind: 'line',
      points,
      stroke: { colour: inks.paper, width: 0.7 },
      part: { name: `halo${kind}` },
    },
    {
      kind: 'line',
      points,
      stroke: { colour: inks.ink, width: 0.2 },
      part: { name: `leader${kind}` },
    },
    {
      kind: 'circle',
      centre: at,
      radius: 0.55,
      fill: inks.ink,
      stroke: { colour: inks.paper, width: 0.25 },
      part: { name: `leader${kind}` },
    },
    ...lines.map((words, i) => ({
      ...text([edge, top + i * LEADING + SIZE * 0.82], words, {
        size: SIZE,
        align: isLeft ? ('end' as const) : ('start' as const),
        colour: inks.ink,
      }),
      part: { name: `label${kind}` },
    })),
  ];
}
