import { sampled } from '../../draw/curve.js';
import type { Point } from '../../draw/drawing.js';
import { STREAM_ENDS, STREAMS } from '../../draw/heart/flow.js';
import { HEART_AT } from '../../draw/heart/place.js';
import { avNode } from '../../draw/heart/shape.js';
import { leaflets, type ValveName } from '../../draw/heart/valves.js';
import type { Blood, Flow, Valve } from './blood.js';
import { svg } from './make.js';
import type { Muscle, Phase } from './phase.js';
import type { Words } from './says.js';

export interface Picture {
  readonly show: (phase: Phase, blood: Blood | null, second: number) => void;
}

/** How far drawn blood moves in a second of the strip, mm; one dash and its gap are 4 mm, so less than three pass a second. */
const FLOW = 11;
const DASH = 4;

/** Takes the printed heart and gives it life: every part of it bears its name already. */
export function picture(drawing: SVGSVGElement, words: Words): Picture {
  drawing.append(patterns(), ...streams(words), stop());
  const parts = new Map<string, SVGElement[]>();
  for (const one of drawing.querySelectorAll<SVGElement>('[data-part]')) {
    const name = one.dataset.part as string;
    parts.set(name, [...(parts.get(name) ?? []), one]);
  }
  const of = (name: string): readonly SVGElement[] => parts.get(name) ?? [];
  const set = (names: readonly string[], state: string) => {
    for (const name of names) for (const one of of(name)) mark(one, state);
  };
  const muscle = (names: readonly string[], state: Muscle) => {
    for (const name of names) for (const one of of(name)) mark(one, stateOf(one, state));
  };
  const leavesOf = new Map<ValveName, Valve | null>();
  const valves = (names: readonly ValveName[], state: Valve) => {
    for (const name of names) {
      if (leavesOf.get(name) === state) continue;
      leavesOf.set(name, state);
      const lines = leaflets(name, state === 'open' ? 'open' : 'shut');
      of(`valve ${name}`).forEach((one, i) => {
        one.setAttribute('d', pathOf(lines[i] as Point[]));
        mark(one, state === 'not known' ? 'unknown' : 'rest');
      });
    }
  };
  return {
    show: (phase, blood, second) => {
      const { atria, ventricles, node, branches } = phase;
      muscle(ATRIA, atria);
      muscle(VENTRICLES, ventricles);
      const fired = atria.is === 'being excited' && atria.from === 'sinus node';
      const isTold = atria.is !== 'not known' && atria.is !== 'in disorder';
      set(['sinus node', 'atrial paths'], fired ? 'lit' : isTold ? 'rest' : 'unknown');
      set(['node'], NODE_STATE[node]);
      set(['bundle', 'branches'], BRANCH_STATE[branches]);
      const isHandedOver = branches === 'carrying' && ventricles.is === 'being excited';
      set(
        ['ends'],
        isHandedOver ? 'lit' : BRANCH_STATE[branches === 'carrying' ? 'at rest' : branches],
      );
      set(['stop'], node === 'blocked' ? 'lit' : 'rest');
      drawing.dataset.blood = blood ? 'shown' : 'hidden';
      valves(['tricuspid', 'mitral'], blood?.inflow ?? 'open');
      valves(['pulmonary', 'aortic'], blood?.outflow ?? 'shut');
      for (const flow of ['return', 'fill', 'out'] as const satisfies readonly Flow[]) {
        const flows = blood?.flows.includes(flow) ?? false;
        for (const one of of(`stream ${flow}`)) {
          mark(one, flows ? 'lit' : 'rest');
          if (flows) one.setAttribute('stroke-dashoffset', String(-((second * FLOW) % DASH)));
        }
      }
    },
  };
}

const ATRIA = ['right atrium wall', 'right atrium back', 'left atrium wall', 'left atrium back'];
const VENTRICLES = ['right ventricle wall', 'left ventricle wall', 'held'];

const NODE_STATE = {
  'at rest': 'rest',
  holding: 'held',
  passing: 'lit',
  blocked: 'held',
  starting: 'lit',
  'not known': 'unknown',
} as const satisfies Record<Phase['node'], string>;

const BRANCH_STATE = {
  'at rest': 'rest',
  carrying: 'lit',
  'not used': 'unused',
  'not known': 'unknown',
} as const satisfies Record<Phase['branches'], string>;

function mark(one: SVGElement, state: string): void {
  if (one.dataset.state !== state) one.dataset.state = state;
}

/** A slice is excited from its turn on; where the front is not known, all of them are marked as that. */
function stateOf(one: SVGElement, muscle: Muscle): string {
  switch (muscle.is) {
    case 'at rest':
      return 'rest';
    case 'still':
      return 'still';
    case 'being excited':
      if (muscle.from !== 'sinus node' && muscle.from !== 'branches') return 'front';
      return muscle.share > Number(one.dataset.turn ?? 0.3) ? 'excited' : 'rest';
    case 'excited':
      return 'excited';
    case 'recovering':
    case 'recovering unseen':
      return 'recovering';
    case 'in disorder':
      return 'disorder';
    case 'not known':
      return 'unknown';
  }
}

const shifted = ([x, y]: Point): Point => [x + HEART_AT[0], y + HEART_AT[1]];

const pathOf = (points: readonly Point[]): string =>
  points
    .map(shifted)
    .map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${x.toFixed(2)} ${y.toFixed(2)}`)
    .join('');

/** Hatched: not known. Broad stripes: excited, front not known. Flecks: in disorder. Told apart without colour. */
function patterns(): Element {
  const pattern = (id: string, size: string, ...inner: Element[]) =>
    svg('pattern', { id, width: size, height: size, patternUnits: 'userSpaceOnUse' }, ...inner);
  const ground = (size: string, name: string) =>
    svg('rect', { width: size, height: size, class: name });
  return svg(
    'defs',
    {},
    pattern(
      'heart-unknown',
      '2',
      ground('2', 'heart-ground'),
      svg('path', { d: 'M-0.5 2.5L2.5 -0.5', class: 'heart-hatch' }),
    ),
    pattern(
      'heart-front',
      '4',
      ground('4', 'heart-muscle'),
      svg('path', { d: 'M-1 5L5 -1M-1 1L1 -1M3 5L5 3', class: 'heart-stripe' }),
    ),
    pattern(
      'heart-disorder',
      '5',
      ground('5', 'heart-muscle'),
      svg('circle', { cx: '1.2', cy: '1.3', r: '0.9', class: 'heart-fleck' }),
      svg('circle', { cx: '3.8', cy: '2.6', r: '0.7', class: 'heart-fleck' }),
      svg('circle', { cx: '1.9', cy: '4', r: '0.6', class: 'heart-fleck' }),
    ),
  );
}

function streams(words: Words): Element[] {
  const lines = STREAMS.map(({ side, flow, way }) =>
    svg('path', {
      d: pathOf(sampled(way, 24)),
      class: `heart-stream ${side}`,
      'data-part': `stream ${flow}`,
    }),
  );
  const ends = Object.entries(STREAM_ENDS).map(([name, { at, align }]) => {
    const [x, y] = shifted(at);
    const text = svg('text', {
      x: String(x),
      y: String(y),
      'text-anchor': align,
      class: 'heart-end',
    });
    text.textContent = words[`heart.flow.${name}`] ?? '';
    return text;
  });
  return [...lines, ...ends];
}

/** A bar across the way out of the node. */
function stop(): Element {
  const [x, y] = shifted(avNode);
  return svg('path', {
    d: `M${x + 1.4} ${y + 3.6}L${x + 4.4} ${y - 1.6}`,
    class: 'heart-stop',
    'data-part': 'stop',
  });
}
