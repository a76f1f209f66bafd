import type { ToldWave } from '../../signal/told-beats.js';
import type { LiveStrip } from '../contract.js';
import { readCounts } from '../counts.js';
import { svg } from './make.js';

/** s of the strip that are seen at once. Of the page: not a clinical number. */
const WINDOW = 2;
/** In units of the little drawing; a second is 160 of them. */
const [WIDTH, HEIGHT, CURVE, BARS] = [320, 74, 50, 56] as const;

export interface Trace {
  readonly element: SVGSVGElement;
  readonly show: (second: number) => void;
}

/** The stretch of the strip that is playing, P, QRS and T as bars under it, and a line at the moment. */
export function trace({ lead, analysis }: LiveStrip): Trace {
  const counts = readCounts(lead.counts);
  const missing = new Set(
    lead.missing.flatMap(([from, to]) => Array.from({ length: to - from }, (_, i) => from + i)),
  );
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  counts.forEach((count, i) => {
    if (missing.has(i)) return;
    low = Math.min(low, count);
    high = Math.max(high, count);
  });
  const height = (count: number) => CURVE - 2 - ((count - low) / (high - low || 1)) * (CURVE - 6);
  const sheet = svg('g');
  const line = svg('path', { class: 'heart-now', d: `M0 0V${HEIGHT}` });
  const element = svg(
    'svg',
    { class: 'heart-trace', viewBox: `0 0 ${WIDTH} ${HEIGHT}`, 'aria-hidden': 'true' },
    sheet,
    line,
  );
  const at = (second: number, from: number) => ((second - from) / WINDOW) * WIDTH;

  const curve = (from: number): string => {
    const first = Math.ceil(from * lead.samplingRate);
    const last = Math.min(counts.length - 1, Math.floor((from + WINDOW) * lead.samplingRate));
    let d = '';
    let isDown = false;
    for (let i = first; i <= last; i++) {
      if (missing.has(i)) {
        isDown = false;
        continue;
      }
      const x = at(i / lead.samplingRate, from).toFixed(1);
      d += `${isDown ? 'L' : 'M'}${x} ${height(counts[i] as number).toFixed(1)}`;
      isDown = true;
    }
    return d;
  };

  const bar = (wave: ToldWave | null, name: string, from: number): SVGElement[] => {
    if (!wave || wave.end < from || wave.onset > from + WINDOW) return [];
    const [left, right] = [at(wave.onset, from), at(wave.end, from)];
    const label = svg('text', { x: (left + right) / 2, y: HEIGHT - 2, 'text-anchor': 'middle' });
    label.textContent = name;
    return [
      svg('rect', { x: left, y: BARS, width: right - left, height: 6, class: `heart-bar ${name}` }),
      label,
    ];
  };

  let drawn: number | null = null;
  return {
    element,
    show: (second) => {
      const page = Math.max(0, Math.floor(second / WINDOW));
      if (page !== drawn) {
        drawn = page;
        const from = page * WINDOW;
        sheet.replaceChildren(
          ...analysis.quality.spans
            .filter(({ readable, from: a, to: b }) => !readable && b > from && a < from + WINDOW)
            .map(({ from: a, to: b }) =>
              svg('rect', {
                x: at(Math.max(a, from), from),
                y: 0,
                width: at(Math.min(b, from + WINDOW), from) - at(Math.max(a, from), from),
                height: BARS + 6,
                class: 'heart-unread',
              }),
            ),
          svg('path', { d: curve(from), class: 'heart-curve' }),
          ...analysis.loneP.flatMap((p) => bar(p, 'P', from)),
          ...analysis.beats.flatMap(({ p, qrs, t }) => [
            ...bar(p, 'P', from),
            ...bar(qrs, 'QRS', from),
            ...bar(t, 'T', from),
          ]),
        );
      }
      line.setAttribute('transform', `translate(${at(second, page * WINDOW).toFixed(2)})`);
    },
  };
}
