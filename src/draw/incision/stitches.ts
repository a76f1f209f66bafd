import { bent, beside, direction, sampled } from '../curve.js';
import type { Mark, Point } from '../drawing.js';
import { inks } from '../inks.js';
import { cut, gap, places } from './cut.js';
import type { SkinClosure } from './drawn-wound.js';
import { thread } from './pens.js';

type Held = Exclude<SkinClosure, 'open' | 'buried' | 'glue'>;

/** Stitches or staples; at the places in `lost` one is loose and the next is gone. */
export function held(closure: Held, lost: readonly number[]): Mark[] {
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
