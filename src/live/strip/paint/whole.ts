import { extremesIn, lineOf } from '../pyramid.js';
import type { Scene } from '../scene.js';
import { endOf } from '../view.js';

interface Size {
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/** Paints the whole strip, small: its trace, what cannot be read, and beats of other origin. None of it moves with the view. */
export function paintWhole(
  context: CanvasRenderingContext2D,
  { known, pyramid, view, inks, density }: Scene,
  { width, height }: Size,
): void {
  const { duration } = view.sheet;
  const xOf = (second: number) => (second / duration) * width;
  const [low, high] = extremesIn(pyramid, 0, duration) ?? [-1, 1];
  const yOf = (millivolt: number) =>
    height - 10 - ((millivolt - low) / (high - low || 1)) * (height - 22);
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, width, height);
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
  context.strokeStyle = inks.faint;
  context.lineWidth = 1;
  for (const { from, to } of known.unreadable) {
    context.beginPath();
    for (let x = xOf(from); x <= xOf(to); x += 4) {
      context.moveTo(x, height - 1);
      context.lineTo(x, 1);
    }
    context.stroke();
  }
  context.fillStyle = inks.early;
  known.told.forEach(({ time }, index) => {
    if (known.short[index]) wedge(context, xOf(time), 6);
  });
}

/** Paints over it what moves: a frame around what is shown above, and the chosen beat. */
export function paintFrame(
  context: CanvasRenderingContext2D,
  { known, view, inks, density, chosen }: Scene,
  { width, height }: Size,
): void {
  const { duration } = view.sheet;
  const xOf = (second: number) => (second / duration) * width;
  context.setTransform(density, 0, 0, density, 0, 0);
  const left = xOf(view.from);
  const right = xOf(Math.min(duration, endOf(view)));
  context.globalCompositeOperation = 'multiply';
  context.fillStyle = inks.wash;
  context.fillRect(left, 0, right - left, height);
  context.globalCompositeOperation = 'source-over';
  context.strokeStyle = inks.accent;
  context.lineWidth = 2;
  context.strokeRect(left + 1, 1, Math.max(4, right - left - 2), height - 2);
  const beat = chosen === null ? undefined : known.told[chosen];
  if (!beat) return;
  context.fillStyle = inks.ink;
  wedge(context, xOf(beat.time), 8);
}

function wedge(context: CanvasRenderingContext2D, x: number, depth: number): void {
  context.beginPath();
  context.moveTo(x, depth);
  context.lineTo(x - 4, 0);
  context.lineTo(x + 4, 0);
  context.fill();
}
