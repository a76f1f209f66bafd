import type { Scene } from '../scene.js';
import { endOf, pixelsPerMillimetre, pixelsPerSecond, xOf } from '../view.js';
import { font, SMALL, sees } from './brush.js';

// CSS pixels and shares of them: not clinical numbers.

const WAVES = ['P', 'QRS', 'T'] as const;

/** A bracket from onset to end of each wave and its letters below; QRS stands one line lower. */
export function letters(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, labels, view, rooms, inks } = scene;
  if (labels.size === 0) return;
  const free = { P: Number.NEGATIVE_INFINITY, QRS: Number.NEGATIVE_INFINITY };
  context.font = font(scene, SMALL);
  const halves = new Map(WAVES.map((name) => [name, context.measureText(name).width / 2] as const));
  context.beginPath();
  context.textAlign = 'center';
  context.fillStyle = inks.ink;
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.2;
  for (const { p, qrs, t, time } of known.beats) {
    if (!sees(scene, p?.onset ?? qrs?.onset ?? time, t?.end ?? qrs?.end ?? time)) continue;
    for (const [name, wave] of [
      ['P', p],
      ['QRS', qrs],
      ['T', t],
    ] as const) {
      if (!wave || !labels.has(name)) continue;
      if (known.unreadable.some(({ from, to }) => wave.onset < to && wave.end > from)) continue;
      const y = rooms.letters + 5;
      const [start, end, peak] = [wave.onset, wave.end, wave.peak].map((at) => xOf(view, at)) as [
        number,
        number,
        number,
      ];
      context.moveTo(start, y - 3);
      context.lineTo(start, y);
      context.lineTo(end, y);
      context.lineTo(end, y - 3);
      const lane = name === 'QRS' ? 'QRS' : 'P';
      const half = halves.get(name) ?? 0;
      // Where beats crowd, the bracket stays and the letter gives way.
      if (peak - half < free[lane]) continue;
      free[lane] = peak + half + 2;
      context.fillText(name, peak, y + (lane === 'QRS' ? 23 : 12));
    }
  }
  context.stroke();
}

/** Steps between the seconds that are written, s. */
const STEPS = [0.2, 0.5, 1, 2, 5, 10, 30, 60];

export function seconds(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  const perSecond = pixelsPerSecond(view);
  const step = STEPS.find((one) => one * perSecond >= 52) ?? 60;
  context.strokeStyle = inks.soft;
  context.fillStyle = inks.soft;
  context.lineWidth = 1;
  context.font = font(scene, SMALL);
  const last = Math.min(view.sheet.duration, endOf(view));
  for (let n = Math.ceil(view.from / step - 1e-6); n * step <= last + 1e-6; n++) {
    const at = n * step;
    const x = xOf(view, at);
    context.beginPath();
    context.moveTo(x, rooms.seconds);
    context.lineTo(x, rooms.seconds + 4);
    context.stroke();
    const words = clockOf(at, view.sheet.duration, step);
    const half = context.measureText(words).width / 2;
    context.textAlign = x < half ? 'left' : x > view.width - half ? 'right' : 'center';
    context.fillText(words, x, rooms.seconds + 16);
  }
}

/** `7 s`, `7.2 s`; `2:07` on a strip of more than a minute. */
function clockOf(second: number, duration: number, step: number): string {
  const decimals = step < 1 ? 1 : 0;
  if (duration <= 60) return `${second.toFixed(decimals)} s`;
  const minutes = Math.floor(second / 60 + 1e-6);
  const rest = Math.max(0, second - 60 * minutes).toFixed(decimals);
  return `${minutes}:${rest.padStart(decimals ? 4 : 2, '0')}`;
}

/** A corner as long as 0.2 s and as high as 1 mV, at the foot of the paper. */
export function scaleSign(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  const across = 0.2 * pixelsPerSecond(view);
  const up = 10 * pixelsPerMillimetre(view);
  if (up > view.height - 24 || across > view.width / 2) return;
  const [x, y] = [view.width - across - 10, rooms.letters - 18];
  context.font = font(scene, SMALL);
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.6;
  context.beginPath();
  context.moveTo(x, y - up);
  context.lineTo(x, y);
  context.lineTo(x + across, y);
  context.stroke();
  context.textAlign = 'right';
  context.fillStyle = inks.ink;
  for (const [words, left, foot] of [
    ['1 mV', x - 4, y - up / 2 + 4],
    ['0.2 s', x + across, y + 14],
  ] as const) {
    context.strokeStyle = inks.paper;
    context.lineWidth = 4;
    context.strokeText(words, left, foot);
    context.fillText(words, left, foot);
  }
}
