import { lineOf, type Points } from '../pyramid.js';
import type { Scene } from '../scene.js';
import { endOf, pixelsPerMillimetre, pixelsPerSecond, xOf, yOf } from '../view.js';
import { sees } from './brush.js';

// CSS pixels and shares of them: not clinical numbers.

/** Below this many CSS pixels a millimetre its lines are left out, as they would grey the paper. */
const FINE_LINES_FROM = 2.4;

export function grid(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, inks, density } = scene;
  const millimetre = pixelsPerMillimetre(view);
  const left = Math.max(0, xOf(view, 0));
  const right = Math.min(view.width, xOf(view, view.sheet.duration));
  const crisp = (at: number) => (Math.round(at * density) + 0.5) / density;
  const lines = (every: number, colour: string, width: number) => {
    context.beginPath();
    const step = every * millimetre;
    const origin = xOf(view, 0);
    for (let n = Math.ceil((left - origin) / step - 1e-6); origin + n * step <= right; n++) {
      const x = crisp(origin + n * step);
      context.moveTo(x, 0);
      context.lineTo(x, view.height);
    }
    const zero = yOf(view, 0);
    for (let n = Math.ceil(-zero / step - 1e-6); zero + n * step <= view.height; n++) {
      const y = crisp(zero + n * step);
      context.moveTo(left, y);
      context.lineTo(right, y);
    }
    context.strokeStyle = colour;
    context.lineWidth = width;
    context.stroke();
  };
  if (millimetre >= FINE_LINES_FROM) lines(1, inks.fine, 1 / density);
  lines(5, inks.bold, millimetre >= FINE_LINES_FROM ? 1.2 : 1 / density);
}

export function chosenBeat(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, chosen, view, inks } = scene;
  const beat = chosen === null ? undefined : known.beats[chosen];
  if (!beat) return;
  const from = xOf(view, beat.p?.onset ?? beat.qrs?.onset ?? beat.time) - 5;
  const to = xOf(view, beat.t?.end ?? beat.qrs?.end ?? beat.time) + 5;
  context.fillStyle = inks.wash;
  context.fillRect(from, 0, to - from, view.height);
}

export function trace(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, pyramid, inks, known, density } = scene;
  const line = pathOf(lineOf(pyramid, view.from, endOf(view), view.width * density), scene);
  const hidden = known.unreadable.filter(({ from, to }) => sees(scene, from, to));
  context.lineWidth = 1.4;
  context.strokeStyle = inks.trace;
  if (hidden.length === 0) {
    context.stroke(line);
    return;
  }
  const stretches = new Path2D();
  for (const { from, to } of hidden) {
    stretches.rect(xOf(view, from), -1, (to - from) * pixelsPerSecond(view), view.height + 2);
  }
  const others = new Path2D(stretches);
  others.rect(-1, -1, view.width + 2, view.height + 2);
  const strokeIn = (where: Path2D, colour: string) => {
    context.save();
    context.clip(where, 'evenodd');
    context.strokeStyle = colour;
    context.stroke(line);
    context.restore();
  };
  strokeIn(others, inks.trace);
  // What nothing is claimed of stays to be seen, so that a learner sees why.
  strokeIn(stretches, inks.faint);
}

function pathOf(points: Points, { view }: Scene): Path2D {
  const path = new Path2D();
  let isBroken = true;
  for (let place = 0; place < points.length; place += 2) {
    const millivolt = points[place + 1] as number;
    if (Number.isNaN(millivolt)) {
      isBroken = true;
      continue;
    }
    const x = xOf(view, points[place] as number);
    const y = yOf(view, millivolt);
    if (isBroken) path.moveTo(x, y);
    else path.lineTo(x, y);
    isBroken = false;
  }
  return path;
}
