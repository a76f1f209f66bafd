import { sampled } from '../curve.js';
import type { Drawing, Mark, Point } from '../drawing.js';
import { scaled } from '../enlarged.js';
import { inks } from '../inks.js';
import { text } from '../lettering.js';
import { textWidth, wrapped } from '../text-width.js';
import { drainMouth, drainTube } from './drain.js';
import type { DrawnWound, Feature, SkinClosure } from './drawn-wound.js';
import { badWound, goodWound } from './joined-wound.js';
import { badOpenWound, goodOpenWound } from './open-wound.js';
import { skinPatch } from './skin.js';

/** A wound from above: how its skin is closed, how it looks, and the words for what is to be looked at. */
export interface IncisionPicture {
  readonly looks: 'good' | 'bad';
  readonly closure: SkinClosure;
  readonly drain: boolean;
  readonly title: string;
  /** A few words for each feature that is to be pointed at. */
  readonly labels: Partial<Readonly<Record<Feature, string>>>;
}

/** Size in mm: two of them stand side by side on either paper. */
const INCISION = { width: 84, height: 19.8 } as const;

/** Share of the size at which skin and wound are drawn. */
const WOUND = 0.62;

const labelLeft = 32.5;
const labelSize = 3.15;
const leading = 3.5;
/** Between one label and the next at least. */
const air = 0.15;
const titleSize = 3.7;
const titleLeft = labelLeft + 6.2;
const signAt: Point = [labelLeft + 2.2, 2.6];
const labelTop = 5.2;

/** The wound from above in a patch of shaved skin, with a few words on what to look at: how it should be, or how not. */
export function incision(picture: IncisionPicture): Drawing {
  const wound = woundOf(picture);
  const labels = setLabels(picture, wound);
  const bottom = Math.max(0, ...labels.map(({ top, lines }) => top + lines.length * leading));
  const inked = [
    titleLeft + textWidth(picture.title, fitting(picture.title)),
    ...labels.flatMap(({ lines }) =>
      lines.map((line) => labelLeft + INKED * textWidth(line, labelSize)),
    ),
  ];
  return {
    width: Math.min(INCISION.width, Math.ceil(Math.max(...inked))),
    height: Math.max(INCISION.height, bottom + 0.4),
    marks: [
      ...skin(),
      ...wound.marks,
      ...labels.flatMap(leader),
      ...labels.flatMap(({ lines, top }) =>
        lines.map((line, i) =>
          text([labelLeft, top + i * leading + labelSize * 0.82], line, {
            size: labelSize,
            colour: inks.ink,
          }),
        ),
      ),
      ...sign(picture.looks),
      text([titleLeft, 4], picture.title, {
        size: fitting(picture.title),
        weight: 'bold',
        colour: inks.ink,
      }),
    ],
  };
}

/** Share of their guessed width that the letters of a label take at most: the guess is on the wide side. */
const INKED = 0.93;

/** The usual size of the title, or the one at which it fits. */
const fitting = (title: string): number =>
  Math.min(titleSize, (INCISION.width - titleLeft) / Math.max(1, textWidth(title, 1)));

const wounds = new Map<string, DrawnWound>();

/** Each wound is drawn once: there are few, and every sheet has two. */
function woundOf(picture: IncisionPicture): DrawnWound {
  const key = `${picture.looks} ${picture.closure} ${picture.drain}`;
  const before = wounds.get(key);
  if (before) return before;
  const { marks, at } = drawWound(picture);
  const places = Object.entries(at).map(([feature, [x, y]]) => [feature, [x * WOUND, y * WOUND]]);
  const wound = {
    marks: marks.map((mark) => scaled(mark, WOUND)),
    at: Object.fromEntries(places) as DrawnWound['at'],
  };
  wounds.set(key, wound);
  return wound;
}

let smallSkin: readonly Mark[] | null = null;

function skin(): readonly Mark[] {
  smallSkin ??= skinPatch().map((mark) => scaled(mark, WOUND));
  return smallSkin;
}

function drawWound({ looks, closure, drain }: IncisionPicture): DrawnWound {
  const good = looks === 'good';
  const wound =
    closure === 'open'
      ? good
        ? goodOpenWound()
        : badOpenWound()
      : good
        ? goodWound(closure)
        : badWound(closure);
  if (!drain) return wound;
  return {
    marks: [...wound.marks, ...drainTube(good)],
    at: { ...wound.at, fluid: drainMouth },
  };
}

interface Label {
  readonly lines: readonly string[];
  readonly top: number;
  readonly at: Point;
}

/** Labels in the order in which what they point at lies, evenly spread; so no two leaders cross and no two labels touch. */
function setLabels({ labels, title }: IncisionPicture, { at }: DrawnWound): Label[] {
  const set = (Object.entries(labels) as [Feature, string][])
    .map(([feature, words]) => {
      const lines = wrapped(words, labelSize, INCISION.width - labelLeft);
      if (!lines) throw new Error(`a label of ${JSON.stringify(title)} is too wide: ${words}`);
      return { lines, at: at[feature] };
    })
    .sort((a, b) => a.at[1] - b.at[1]);
  const tall = set.reduce((sum, { lines }) => sum + lines.length * leading, 0);
  const room = INCISION.height - labelTop - tall;
  const between = Math.max(air, Math.min(5, room / (set.length + 1)));
  let top = labelTop + Math.max(0, (room - between * (set.length - 1)) / 2);
  return set.map(({ lines, at: point }) => {
    const label = { lines, top, at: point };
    top += lines.length * leading + between;
    return label;
  });
}

/** A thin line from the words to what they speak of, on a white seam so that it stays clear of the hairs. */
function leader({ at, top }: Label): Mark[] {
  const start: Point = [labelLeft - 1, top + leading * 0.42];
  const knee: Point = [labelLeft - 3, start[1]];
  const points = [
    start,
    ...sampled((t) => [knee[0] + (at[0] - knee[0]) * t, knee[1] + (at[1] - knee[1]) * t], 1),
  ];
  return [
    { kind: 'line', points, stroke: { colour: inks.paper, width: 0.62 } },
    { kind: 'line', points, stroke: { colour: inks.ink, width: 0.17 } },
    { kind: 'circle', centre: at, radius: 0.68, fill: inks.paper },
    { kind: 'circle', centre: at, radius: 0.42, fill: inks.ink },
  ];
}

/** A tick in a ring, or an exclamation mark in a full disc: told apart by shape alone. */
function sign(looks: 'good' | 'bad'): Mark[] {
  const [x, y] = signAt;
  const centre: Point = signAt;
  if (looks === 'good') {
    return [
      {
        kind: 'circle',
        centre,
        radius: 2.3,
        fill: inks.paper,
        stroke: { colour: inks.ink, width: 0.4 },
      },
      {
        kind: 'line',
        points: [
          [x - 1.1, y + 0.1],
          [x - 0.25, y + 1],
          [x + 1.25, y - 1],
        ],
        stroke: { colour: inks.ink, width: 0.6 },
      },
    ];
  }
  return [
    { kind: 'circle', centre, radius: 2.45, fill: inks.ink },
    {
      kind: 'area',
      points: [
        [x - 0.4, y - 1.6],
        [x + 0.4, y - 1.6],
        [x + 0.22, y + 0.5],
        [x - 0.22, y + 0.5],
      ],
      fill: inks.paper,
    },
    { kind: 'circle', centre: [x, y + 1.4], radius: 0.38, fill: inks.paper },
  ];
}
