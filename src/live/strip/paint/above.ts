import { paintSign } from '../beat-signs.js';
import type { Scene, Stretch } from '../scene.js';
import { xOf } from '../view.js';
import { font, LETTER, plate, SMALL, sees, shortened } from './brush.js';

export function rhythms(context: CanvasRenderingContext2D, scene: Scene): void {
  for (const stretch of scene.known.rhythms) {
    bracket(context, scene, stretch, { top: 3, isDashed: !stretch.named, until: stretch.to });
  }
}

/** The words of a short event may reach on until the next one. */
export function events(context: CanvasRenderingContext2D, scene: Scene): void {
  const { events: all, rhythms: ruling } = scene.known;
  all.forEach((event, index) => {
    const until = all[index + 1]?.from ?? ruling.at(-1)?.to ?? event.to;
    bracket(context, scene, event, { top: 27, isDashed: false, until });
  });
}

/** Words over a line from end to end of their stretch; where nothing is named the line is dashed. */
function bracket(
  context: CanvasRenderingContext2D,
  scene: Scene,
  { from, to, words }: Stretch,
  { top, isDashed, until }: { top: number; isDashed: boolean; until: number },
): void {
  if (!sees(scene, from, until)) return;
  const { view, inks } = scene;
  const left = Math.max(-4, xOf(view, from) + 1);
  const right = Math.min(view.width + 4, xOf(view, to) - 1);
  const line = top + 17;
  context.strokeStyle = inks.ink;
  context.lineWidth = 1.2;
  context.setLineDash(isDashed ? [4, 3] : []);
  context.beginPath();
  context.moveTo(left, line - 5);
  context.lineTo(left, line);
  context.lineTo(right, line);
  context.lineTo(right, line - 5);
  if (right > left) context.stroke();
  context.setLineDash([]);
  context.font = font(scene, LETTER, isDashed ? 400 : 700);
  const start = Math.max(left, 0) + 5;
  const room = Math.min(xOf(view, until), view.width) - start - 5;
  context.fillStyle = inks.ink;
  context.textAlign = 'left';
  const fitting = shortened(context, words, room);
  if (fitting) context.fillText(fitting, start, top + 11);
}

export function signs(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, view, rooms, inks, chosen } = scene;
  const y = rooms.paper - 8;
  const near = known.told.flatMap(({ time, kind, number }, index) => {
    const x = xOf(view, time);
    // A little beyond the left edge, where words beside a sign may still reach in.
    return x < -80 || x > view.width + 10 ? [] : [{ x, kind, number, index }];
  });
  for (const { x, kind } of near) paintSign(context, kind, x, y, inks);
  context.textAlign = 'center';
  context.font = font(scene, SMALL);
  context.fillStyle = inks.soft;
  let free = Number.NEGATIVE_INFINITY;
  for (const { x, number, index } of near) {
    const half = 3.4 * String(number).length;
    if (index === chosen || x - half < free) continue;
    context.fillText(String(number), x, rooms.signs + 12);
    free = x + half + 4;
  }
  context.textAlign = 'left';
  context.fillStyle = inks.ink;
  // Where beats crowd, the sign stays and the words give way, but for the chosen beat.
  near.forEach(({ x, index }, place) => {
    const words = known.short[index];
    if (!words || index === chosen) return;
    const room = (near[place + 1]?.x ?? Number.POSITIVE_INFINITY) - x - 15;
    if (context.measureText(words).width <= room) context.fillText(words, x + 8, y + 4);
  });
  chosenSign(context, scene);
}

/** Number and words of the chosen beat, on a ground of their own, as they may stand close to others. */
function chosenSign(context: CanvasRenderingContext2D, scene: Scene): void {
  const { known, chosen, view, rooms } = scene;
  const beat = chosen === null ? undefined : known.told[chosen];
  if (!beat) return;
  const x = xOf(view, beat.time);
  context.font = font(scene, SMALL, 700);
  context.textAlign = 'center';
  const half = context.measureText(String(beat.number)).width / 2;
  plate(context, scene, x - half - 4, rooms.signs + 2, 2 * half + 8, 13);
  context.fillRect(x - half - 3, rooms.signs + 15, 2 * half + 6, 2);
  context.fillText(String(beat.number), x, rooms.signs + 12);
  const words = known.short[chosen ?? -1];
  if (!words) return;
  context.font = font(scene, SMALL);
  context.textAlign = 'left';
  plate(context, scene, x + 7, rooms.paper - 16, context.measureText(words).width + 4, 15);
  context.fillText(words, x + 8, rooms.paper - 4);
}
