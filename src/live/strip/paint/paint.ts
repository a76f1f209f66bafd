import type { Scene } from '../scene.js';
import { events, rhythms, signs } from './above.js';
import { letters, scaleSign, seconds } from './below.js';
import { onPaper } from './brush.js';
import { hatching } from './hatching.js';
import { chosenBeat, grid, trace } from './paper.js';
import { calipers, pointed } from './pointers.js';

/** Paints the strip: what is known of it above and below, its paper and trace between. */
export function paint(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks, density } = scene;
  context.setTransform(density, 0, 0, density, 0, 0);
  context.fillStyle = inks.paper;
  context.fillRect(0, 0, view.width, rooms.bottom);
  context.lineJoin = 'round';
  context.lineCap = 'butt';
  onPaper(context, scene, () => {
    chosenBeat(context, scene);
    grid(context, scene);
    trace(context, scene);
    hatching(context, scene);
  });
  rhythms(context, scene);
  events(context, scene);
  signs(context, scene);
  letters(context, scene);
  seconds(context, scene);
  scaleSign(context, scene);
  pointed(context, scene);
  calipers(context, scene);
}
