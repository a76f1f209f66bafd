import { extremesIn, lineOf } from './pyramid.js';
import type { Scene } from './scene.js';
import { endOf } from './view.js';

/** Paints the whole strip, small: its trace, what cannot be read, beats of other origin, and a frame around what is shown above. */
export function paintWhole(
  context: CanvasRenderingContext2D,
  { known, pyramid, view, inks, density, chosen }: Scene,
  width: number,
  height: number,
): void {
  const { duration } = view.sheet;
  const xOf = (second: number) => (second / duration) * width;
  const extremes = extremesIn(pyramid, 0, duration);
  const [low, high] = extremes ?? [-1, 1];
  const yOf = (millivolt: number) =>
    height - 10 - ((millivolt - low) / (high - low || 1)) * (height - 22);
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, width, height);
  context.fillStyle = inks.wash;
  const left = xOf(view.from);
  const right = xOf(Math.min(duration, endOf(view)));
  context.fillRect(left, 0, right - left, height);
  const points = lineOf(pyramid, 0, duration, width * density);
  context.beginPath();
  let isBroken = true;
  for (let place = 0; place < points.length; place += 2) {
    const millivolt = points[place + 1] as number;
    if (Number.isNaN(millivolt)) {
      isBroken = true;
      continue;
    }
    const x = xOf(points[place] as number);
    if (isBroken) context.moveTo(x, yOf(millivolt));
    else context.lineTo(x, yOf(millivolt));
    isBroken = false;
  }
  context.strokeStyle = inks.trace;
  context.lineWidth = 0.8;
  context.stroke();
  for (const { from, to } of known.unreadable) {
    context.beginPath();
    for (let x = xOf(from); x <= xOf(to); x += 4) {
      context.moveTo(x, height - 1);
      context.lineTo(x, 1);
    }
    context.strokeStyle = inks.faint;
    context.lineWidth = 1;
    context.stroke();
  }
  known.told.forEach(({ time }, index) => {
    if (index !== chosen && !known.short[index]) return;
    const x = xOf(time);
    context.fillStyle = index === chosen ? inks.ink : inks.early;
    context.beginPath();
    context.moveTo(x, index === chosen ? 8 : 6);
    context.lineTo(x - 4, 0);
    context.lineTo(x + 4, 0);
    context.fill();
  });
  context.strokeStyle = inks.accent;
  context.lineWidth = 2;
  context.strokeRect(left + 1, 1, Math.max(4, right - left - 2), height - 2);
}
