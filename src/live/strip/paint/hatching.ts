import type { Scene } from '../scene.js';
import { xOf } from '../view.js';
import { font, LETTER, plate, sees, wrapped } from './brush.js';

export function hatching(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, known, inks } = scene;
  for (const { from, to, words } of known.unreadable) {
    if (!sees(scene, from, to)) continue;
    const left = Math.max(-1, xOf(view, from));
    const right = Math.min(view.width + 1, xOf(view, to));
    hatch(context, left, 0, right, view.height, inks.faint);
    const lines = wrapped(context, words, right - left - 20, font(scene, LETTER));
    if (!lines) {
      besideHatch(context, scene, words, left);
      continue;
    }
    const widest = Math.max(...lines.map((line) => context.measureText(line).width));
    const middle = (left + right) / 2;
    const top = (view.height - lines.length * 17) / 2;
    plate(context, scene, middle - widest / 2 - 6, top - 4, widest + 12, lines.length * 17 + 8);
    context.textAlign = 'center';
    lines.forEach((line, row) => {
      context.fillText(line, middle, top + 13 + row * 17);
    });
  }
}

/** The reason of a stretch too narrow for it: at the foot of the paper, from the left edge of the stretch where the window has room. */
function besideHatch(
  context: CanvasRenderingContext2D,
  scene: Scene,
  words: string,
  left: number,
): void {
  const { view } = scene;
  const width = context.measureText(words).width;
  const start = Math.max(4, Math.min(left + 4, view.width - width - 8));
  plate(context, scene, start - 4, view.height - 22, width + 8, 20);
  context.textAlign = 'left';
  context.fillText(words, start, view.height - 8);
}

function hatch(
  context: CanvasRenderingContext2D,
  left: number,
  top: number,
  right: number,
  bottom: number,
  colour: string,
): void {
  context.save();
  context.beginPath();
  context.rect(left, top, right - left, bottom - top);
  context.clip();
  context.beginPath();
  for (let x = left - (bottom - top); x < right; x += 8) {
    context.moveTo(x, bottom);
    context.lineTo(x + bottom - top, top);
  }
  context.strokeStyle = colour;
  context.lineWidth = 0.8;
  context.stroke();
  context.strokeRect(left, top, right - left, bottom - top);
  context.restore();
}
