import type { Scene } from '../scene.js';
import { xOf, yOf } from '../view.js';
import { onPaper, sees } from './brush.js';

export function pointed(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, rooms, inks } = scene;
  if (scene.pointed === null || !sees(scene, scene.pointed, scene.pointed)) return;
  const x = xOf(view, scene.pointed);
  context.strokeStyle = inks.accent;
  context.fillStyle = inks.accent;
  context.lineWidth = 1;
  context.setLineDash([2, 3]);
  context.beginPath();
  context.moveTo(x, rooms.paper);
  context.lineTo(x, rooms.seconds);
  context.stroke();
  context.setLineDash([]);
  context.beginPath();
  context.moveTo(x, rooms.seconds - 1);
  context.lineTo(x - 5, rooms.seconds + 8);
  context.lineTo(x + 5, rooms.seconds + 8);
  context.fill();
}

export function calipers(context: CanvasRenderingContext2D, scene: Scene): void {
  const { view, inks, points } = scene;
  if (!points) return;
  context.strokeStyle = inks.caliper;
  context.fillStyle = inks.caliper;
  onPaper(context, scene, () => {
    const [x1, x2] = points.map(({ second }) => xOf(view, second)) as [number, number];
    points.forEach(({ millivolt }, index) => {
      const x = index === 0 ? x1 : x2;
      context.lineWidth = 1.5;
      context.setLineDash(index === 0 ? [] : [6, 3]);
      context.beginPath();
      context.moveTo(x, 0);
      context.lineTo(x, view.height);
      context.stroke();
      if (millivolt === null) return;
      const y = yOf(view, millivolt);
      context.lineWidth = 1;
      context.setLineDash([1, 3]);
      context.beginPath();
      context.moveTo(x1, y);
      context.lineTo(x2, y);
      context.stroke();
      context.setLineDash([]);
      context.beginPath();
      context.arc(x, y, 3.5, 0, 2 * Math.PI);
      context.fill();
    });
    context.setLineDash([]);
    context.lineWidth = 1.5;
    const y = view.height / 2;
    context.beginPath();
    context.moveTo(x1, y);
    context.lineTo(x2, y);
    context.stroke();
  });
  context.setLineDash([]);
}
