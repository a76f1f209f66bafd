import { around, bent, beside, type Curve, sampled } from '../curve.js';
import type { Mark } from '../drawing.js';
import { inks } from '../inks.js';
import { cut, fromCut, gap, gape, places } from './cut.js';
import type { DrawnWound, SkinClosure } from './drawn-wound.js';
import { film } from './glue.js';
import { fine, ink, thread } from './pens.js';
import { drop, redness } from './skin.js';
import { held } from './stitches.js';

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
