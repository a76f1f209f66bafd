import {
  around,
  bent,
  beside,
  blob,
  type Curve,
  direction,
  looseGrid,
  sampled,
  scattered,
} from './curve.js';
import type { Mark, Point, Stroke } from './drawing.js';
import { drop, redness } from './incision-skin.js';
import { inks } from './inks.js';

/** What the owner sees holding the skin. */
export type SkinClosure =
  | 'stitches'
  | 'crossed stitches'
  | 'running stitch'
  | 'staples'
  | 'buried'
  | 'glue'
  | 'open';

/** What a label points at. */
export type Feature = 'edges' | 'holder' | 'around' | 'fluid';

/** A wound, and where on it each feature is seen. */
export interface DrawnWound {
  readonly marks: readonly Mark[];
  readonly at: Readonly<Record<Feature, Point>>;
}

const ink: Stroke = { colour: inks.ink, width: 0.4 };
const fine: Stroke = { colour: inks.ink, width: 0.25 };
const thread: Stroke = { colour: inks.accent, width: 0.42 };

/** The cut: a calm line, a little bowed, across the shaved skin. */
const cut: Curve = (t) => [6 + 31 * t, 17.3 - 2.2 * Math.sin(Math.PI * t) - 1.6 * t];

/** Where the cut gapes when it does, as shares of its length. */
const gap = [0.42, 0.8] as const;
const gape = (u: number) => 2.35 * Math.sin(Math.PI * u) ** 1.3;

/** Places of the stitches along the cut; it gapes at the fourth and the fifth. */
const places = [0.06, 0.235, 0.41, 0.585, 0.76, 0.935] as const;

const fromCut = ([x, y]: Point): number =>
  Math.min(...sampled(cut, 30).map(([cx, cy]) => Math.hypot(x - cx, y - cy)));

/** A joined wound that heals as it should. */
export function goodWound(closure: Exclude<SkinClosure, 'open'>): DrawnWound {
  return {
    marks: [
      ...redness(fromCut, 2.6, 1.25, inks.faint),
      ...(closure === 'glue' ? film(false) : []),
      { kind: 'line', points: sampled(cut, 48), stroke: closure === 'buried' ? ink : fine },
      ...(closure === 'buried' || closure === 'glue' ? ends() : held(closure, [])),
    ],
    at: {
      edges: cut(closure === 'buried' || closure === 'glue' ? 0.86 : 0.985),
      holder:
        closure === 'buried'
          ? cut(0.62)
          : closure === 'glue'
            ? beside(cut, 0.74, -1.9)
            : beside(cut, places[5], -2.1),
      around: beside(cut, 0.83, 3.1),
      fluid: beside(cut, 0.9, 5),
    },
  };
}

/** The same wound when it needs help: it gapes, is swollen and red, something comes out and what held it is loose. */
export function badWound(closure: Exclude<SkinClosure, 'open'>): DrawnWound {
  const opening = around(cut, gap, gape);
  const low = beside(cut, 0.58, 1.9);
  return {
    marks: [
      ...redness(fromCut, 7.6, 0.92),
      ...swelling(),
      ...(closure === 'glue' ? film(true) : []),
      { kind: 'line', points: sampled(cut, 16, 0, gap[0]), stroke: ink },
      { kind: 'line', points: sampled(cut, 16, gap[1], 1), stroke: ink },
      { kind: 'area', points: opening, fill: inks.soft, stroke: { ...ink, width: 0.5 } },
      ...fibres(),
      ...(closure === 'buried' ? threadEnd() : []),
      ...(closure === 'buried' || closure === 'glue' ? ends() : held(closure, [3, 4])),
      ...drop(low, 2.1, inks.paper),
      ...drop([low[0] + 3.6, low[1] + 0.2], 1.3, inks.paper),
    ],
    at: {
      edges: beside(cut, 0.7, -1.3),
      holder:
        closure === 'glue'
          ? beside(cut, 0.86, -3.2)
          : closure === 'buried'
            ? strand(1)
            : beside(cut, places[3], -4.4, 2.6),
      around: beside(cut, 0.9, 3.4),
      fluid: [low[0] + 0.4, low[1] + 3],
    },
  };
}

/** The end of a buried stitch that has worked its way out. */
const strand: Curve = bent(cut(0.89), beside(cut, 0.89, -3.2, -1.4), beside(cut, 0.89, -3.6, 1.8));

const threadEnd = (): Mark[] => [{ kind: 'line', points: sampled(strand, 12), stroke: thread }];

/** Short strands across the depth of the opening. */
function fibres(): Mark[] {
  return [0.3, 0.45, 0.6, 0.72].map((u): Mark => {
    const t = gap[0] + (gap[1] - gap[0]) * u;
    const half = gape(u) * 0.62;
    const from = beside(cut, t, -half);
    const to = beside(cut, t, half, 0.35);
    return {
      kind: 'line',
      points: sampled(bent(from, beside(cut, t, 0, 0.5), to), 5),
      stroke: { colour: inks.rule, width: 0.22 },
    };
  });
}

/** Raised skin: lines around the cut, fainter further out. */
function swelling(): Mark[] {
  return [3.5, 5, 6.5].flatMap((off, ring) =>
    ([-1, 1] as const).map((side): Mark => {
      const reach = 0.06 + 0.09 * ring;
      const bow = (t: number) => off * (0.72 + 0.28 * Math.sin(Math.PI * t));
      return {
        kind: 'line',
        points: Array.from({ length: 31 }, (_, i) => {
          const t = reach + ((1 - 2 * reach) * i) / 30;
          return beside(cut, t, side * bow(t));
        }),
        stroke: {
          colour: ring === 2 ? inks.rule : inks.faint,
          width: 0.3 - 0.05 * ring,
          ...(ring > 0 && { dash: [2.2 - 0.5 * ring, 0.9] }),
        },
      };
    }),
  );
}

/** The two ends of a cut that nothing is seen to hold. */
function ends(): Mark[] {
  return [0, 1].map(
    (t): Mark => ({ kind: 'circle', centre: cut(t), radius: 0.28, fill: inks.ink }),
  );
}

type Held = Exclude<SkinClosure, 'open' | 'buried' | 'glue'>;

/** Stitches or staples; at the places in `lost` one is loose and the next is gone. */
function held(closure: Held, lost: readonly number[]): Mark[] {
  if (closure === 'running stitch') return running(lost);
  return places.flatMap((t, i) => {
    const gone = lost.indexOf(i);
    if (closure === 'staples') return gone < 0 ? staple(t) : gone === 0 ? lifted(t) : holes(t, 2.8);
    if (gone === 0) return loose(t);
    if (gone > 0) return holes(t, 2.8);
    return closure === 'crossed stitches' ? crossed(t) : single(t);
  });
}

const dot = (centre: Point, radius: number, fill: string = inks.ink): Mark => ({
  kind: 'circle',
  centre,
  radius,
  fill,
});

const holes = (t: number, off: number): Mark[] =>
  [-off, off].map((side) => dot(beside(cut, t, side), 0.32));

/** One stitch across the cut, its knot to one side with two cut ends. */
function single(t: number): Mark[] {
  const top = beside(cut, t, -2.8);
  const foot = beside(cut, t, 2.8);
  return [
    dot(top, 0.32),
    dot(foot, 0.32),
    { kind: 'line', points: [top, foot], stroke: thread },
    ...knot(t, -2.1),
  ];
}

function crossed(t: number): Mark[] {
  const corner = (off: number, along: number) => beside(cut, t, off, along);
  const [a, b, c, d] = [
    corner(-2.5, -1.25),
    corner(2.5, 1.25),
    corner(-2.5, 1.25),
    corner(2.5, -1.25),
  ];
  return [
    ...[a, b, c, d].map((at) => dot(at, 0.3)),
    { kind: 'line', points: [a, b], stroke: thread },
    { kind: 'line', points: [c, d], stroke: thread },
    ...knot(t, -2.5, 1.25),
  ];
}

function knot(t: number, off: number, along = 0): Mark[] {
  const at = beside(cut, t, off, along);
  const tail = (reach: number, lift: number): Mark => ({
    kind: 'line',
    points: sampled(
      bent(
        at,
        beside(cut, t, off - lift * 0.9, along + reach * 0.3),
        beside(cut, t, off - lift, along + reach),
      ),
      6,
    ),
    stroke: { ...thread, width: 0.32 },
  });
  return [tail(1.3, 0.9), tail(0.7, 1.5), dot(at, 0.5, inks.accent)];
}

/** A stitch that has pulled out at one side and stands up as a loop. */
function loose(t: number): Mark[] {
  const foot = beside(cut, t, -2.8);
  const tip = beside(cut, t, -4.6, 2.2);
  const loop = sampled(bent(foot, beside(cut, t, -7.4, -2.4), tip), 16);
  const back = sampled(bent(tip, beside(cut, t, -3.2, 4), beside(cut, t, -2.7, 5)), 10);
  return [
    ...holes(t, 2.8),
    { kind: 'line', points: loop, stroke: thread },
    { kind: 'line', points: back, stroke: thread },
    dot(tip, 0.5, inks.accent),
  ];
}

/** One thread that winds along the cut. */
function running(lost: readonly number[]): Mark[] {
  const turns = 10;
  return Array.from({ length: turns }, (_, i) => (i + 0.5) / turns).flatMap((t): Mark[] => {
    const a = beside(cut, t, -2.3, -0.9);
    const b = beside(cut, t, 2.3, 0.9);
    const open = lost.length > 0 && t > gap[0] && t < gap[1];
    if (open) {
      const slack = beside(cut, t, -5.2, 1.8);
      return [
        dot(a, 0.28),
        dot(b, 0.28),
        { kind: 'line', points: sampled(bent(a, slack, b), 10), stroke: thread },
      ];
    }
    return [dot(a, 0.28), dot(b, 0.28), { kind: 'line', points: [a, b], stroke: thread }];
  });
}

/** A staple from above: a bar with rounded ends, its legs in the skin at either side. */
function staple(t: number): Mark[] {
  const [dx, dy] = direction(cut, t);
  return bar(cut(t), [-dy, dx], 2.8);
}

/** A staple that has turned and stands off the skin at one end. */
function lifted(t: number): Mark[] {
  const angle = 0.95;
  const [dx, dy] = direction(cut, t);
  const [ax, ay] = [-dy, dx];
  const turned: Point = [
    ax * Math.cos(angle) - ay * Math.sin(angle),
    ax * Math.sin(angle) + ay * Math.cos(angle),
  ];
  return [...holes(t, 2.8), ...bar(beside(cut, t, -4.6, 1), turned, 2.6)];
}

function bar([x, y]: Point, [ux, uy]: Point, half: number): Mark[] {
  const wide = 0.56;
  const capsule: Point[] = ([1, -1] as const).flatMap((end) =>
    Array.from({ length: 13 }, (_, i): Point => {
      const a = -Math.PI / 2 + (Math.PI * i) / 12;
      const along = end * (half + wide * Math.cos(a));
      const off = end * wide * Math.sin(a);
      return [x + ux * along - uy * off, y + uy * along + ux * off];
    }),
  );
  const end = (side: number): Point => [x + ux * half * side, y + uy * half * side];
  return [
    { kind: 'area', points: capsule, fill: inks.paper, stroke: { colour: inks.ink, width: 0.3 } },
    dot(end(1), 0.24),
    dot(end(-1), 0.24),
    {
      kind: 'line',
      points: [
        [x - ux * half * 0.7 - uy * 0.16, y - uy * half * 0.7 + ux * 0.16],
        [x + ux * half * 0.7 - uy * 0.16, y + uy * half * 0.7 + ux * 0.16],
      ],
      stroke: { colour: inks.rule, width: 0.18 },
    },
  ];
}

/** The film of glue over the cut, with glints; where it lets go, one end has curled up. */
function film(peeling: boolean): Mark[] {
  const edge = (u: number, side: 1 | -1) =>
    (2.5 + 0.35 * Math.sin(9 * u + side) + 0.2 * Math.sin(17 * u - side)) *
    Math.min(1, (4 * Math.min(u, 1 - u) + 0.12) ** 0.5);
  const part = (from: number, to: number): Mark => ({
    kind: 'area',
    points: around(cut, [from, to], edge),
    fill: inks.paper,
    stroke: { colour: inks.faint, width: 0.28 },
  });
  const glint = (from: number, to: number, off: number): Mark => ({
    kind: 'line',
    points: Array.from({ length: 9 }, (_, i) => beside(cut, from + ((to - from) * i) / 8, off)),
    stroke: { colour: inks.rule, width: 0.35 },
  });
  if (!peeling) {
    return [
      part(-0.03, 1.03),
      glint(0.1, 0.24, -1.4),
      glint(0.29, 0.33, -1.45),
      glint(0.7, 0.84, -1.4),
    ];
  }
  const lift = beside(cut, 0.9, -4.4, 0.6);
  const curl: Point[] = [
    ...sampled(bent(beside(cut, 0.83, -2), beside(cut, 0.78, -5.4), lift), 12),
    ...sampled(bent(lift, beside(cut, 0.93, -3, 0.6), beside(cut, 0.95, -1.8)), 12),
  ];
  return [
    part(-0.03, 0.36),
    part(0.82, 1.03),
    glint(0.06, 0.22, -1.3),
    { kind: 'area', points: curl, fill: inks.paper, stroke: { colour: inks.ink, width: 0.28 } },
  ];
}

const bed = { centre: [21.4, 15.9] as Point, radii: [11.6, 6.8] as Point };
const bedEdge = (angle: number) => 1 + 0.05 * Math.sin(2 * angle + 1) + 0.035 * Math.sin(5 * angle);
const shareOfBed = ([x, y]: Point, grow = 0): number => {
  const [dx, dy] = [x - bed.centre[0], y - bed.centre[1]];
  const share = Math.hypot(dx / (bed.radii[0] + grow), dy / (bed.radii[1] + grow));
  return share / bedEdge(Math.atan2(dy, dx));
};

/** A wound that was left open, as it should fill in: moist, bumpy, with new skin at its rim. */
export function goodOpenWound(): DrawnWound {
  return {
    marks: [
      {
        kind: 'area',
        points: bedOutline(1.5),
        fill: inks.paper,
        stroke: { colour: inks.faint, width: 0.25 },
      },
      { kind: 'area', points: bedOutline(0), fill: inks.tint, stroke: { ...ink, width: 0.5 } },
      ...pebbles(() => true),
    ],
    at: {
      edges: [bed.centre[0] + 9.4, bed.centre[1] - 5],
      holder: [bed.centre[0] + 6.4, bed.centre[1] - 0.4],
      around: [bed.centre[0] + 13, bed.centre[1] + 5.6],
      fluid: [bed.centre[0] + 2, bed.centre[1] + 6.4],
    },
  };
}

/** The same when it needs help: dead patches, pus, and red, swollen skin around. */
export function badOpenWound(): DrawnWound {
  const dead: readonly (readonly [Point, Point, number])[] = [
    [[16.6, 13.9], [3.4, 2.1], 0.4],
    [[26.6, 15.3], [2.5, 1.8], 2.1],
    [[20, 19.1], [1.7, 1], 4.2],
  ];
  const low: Point = [24.6, 21.3];
  return {
    marks: [
      ...redness((at) => Math.max(0, (shareOfBed(at) - 1) * 8), 6, 0.9),
      ...[1.6, 2.9].map(
        (grow, i): Mark => ({
          kind: 'line',
          points: closed(bedOutline(grow)),
          stroke: { colour: inks.faint, width: 0.3 - 0.07 * i, ...(i > 0 && { dash: [1.8, 0.9] }) },
        }),
      ),
      { kind: 'area', points: bedOutline(0), fill: inks.paper, stroke: { ...ink, width: 0.6 } },
      ...pebbles(([x, y]) => scattered(x, y) > 0.45),
      ...dead.map(
        ([centre, radii, turn]): Mark => ({
          kind: 'area',
          points: blob(
            centre,
            radii,
            (a) => 1 + 0.13 * Math.sin(3 * a + turn) + 0.05 * Math.sin(5 * a),
          ),
          fill: inks.ink,
        }),
      ),
      ...drop(low, 2.1, inks.paper),
      ...drop([low[0] - 3.8, low[1] - 0.1], 1.3, inks.paper),
    ],
    at: {
      edges: [bed.centre[0] + 9.8, bed.centre[1] - 3.6],
      holder: [27.4, 14.7],
      around: [bed.centre[0] + 13, bed.centre[1] + 3],
      fluid: [low[0] + 0.4, low[1] + 3],
    },
  };
}

const bedOutline = (grow: number): Point[] =>
  blob(bed.centre, [bed.radii[0] + grow, bed.radii[1] + grow], bedEdge);

const closed = (points: readonly Point[]): Point[] => [...points, points[0] as Point];

/** The grains of new tissue: three quarters of a ring each, open to where the light comes from. */
function pebbles(keep: (at: Point) => boolean): Mark[] {
  const [[cx, cy], [rx, ry]] = [bed.centre, bed.radii];
  return looseGrid([cx - rx, cy - ry], [cx + rx, cy + ry], 1.95, 11).flatMap((at): Mark[] => {
    const size = 0.62 + 0.3 * scattered(at[0], at[1]);
    if (shareOfBed(at, -size - 0.3) > 1 || !keep(at)) return [];
    return [
      {
        kind: 'line',
        points: sampled((t) => {
          const a = -0.5 + 4.4 * t;
          return [at[0] + size * Math.cos(a), at[1] + size * 0.85 * Math.sin(a)];
        }, 12),
        stroke: { colour: inks.soft, width: 0.22 },
      },
    ];
  });
}

/** A drain that leaves the skin beside the wound, and what runs from it. */
export function drainTube(good: boolean): DrawnWound['marks'] {
  const way = bent([27.4, 21.9], [31.8, 22.3], [33.4, 27.4]);
  const mouth = way(1);
  return [
    ...(good ? [] : redness(([x, y]) => Math.hypot(x - 27.4, y - 21.9), 4, 0.8)),
    { kind: 'area', points: blob([27.4, 21.9], [1.6, 1.2]), fill: inks.soft, stroke: fine },
    {
      kind: 'area',
      points: around(way, [0, 1], () => 0.85),
      fill: inks.paper,
      stroke: { colour: inks.ink, width: 0.32 },
    },
    {
      kind: 'line',
      points: Array.from({ length: 13 }, (_, i) => beside(way, 0.1 + (0.8 * i) / 12, -0.3)),
      stroke: { colour: inks.rule, width: 0.25 },
    },
    { kind: 'area', points: blob(mouth, [0.85, 0.42]), fill: inks.soft, stroke: fine },
    ...drop([mouth[0], mouth[1] + 0.5], good ? 0.7 : 1.2, good ? inks.paper : inks.soft),
  ];
}

/** Where a drain's fluid is seen. */
export const drainMouth: Point = [33.6, 28.8];
