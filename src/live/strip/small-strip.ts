import { element } from './element.js';
import { heedDrag } from './gestures.js';
import { paintFrame, paintWhole } from './paint/whole.js';
import type { Panel } from './panel.js';
import type { Say } from './say.js';
import type { Scene } from './scene.js';
import type { Sight } from './sight.js';
import { endOf, shown, within } from './view.js';

/** The whole strip, small, to jump in by hand and keys. */
export class SmallStrip {
  /** Painted once for each lead, size and scheme, and then only laid under its frame. */
  private still: { readonly key: string; readonly canvas: HTMLCanvasElement } | null = null;

  constructor(
    private readonly panel: Panel,
    private readonly sight: Sight,
    private readonly say: Say,
  ) {
    const { whole } = panel;
    heedDrag(whole, whole, (x) => {
      const { view } = sight;
      const second = (x / whole.clientWidth) * view.sheet.duration;
      this.goTo(second - shown(view) / 2);
    });
    whole.addEventListener('keydown', (event) => {
      const to = this.placeFor(event.key);
      if (to === undefined || event.altKey || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      this.goTo(to);
    });
  }

  private goTo(from: number): void {
    this.sight.show(within({ ...this.sight.view, from }));
  }

  /** s at the left edge after a key. */
  private placeFor(key: string): number | undefined {
    const { view } = this.sight;
    const step = shown(view) / 4;
    return new Map([
      ['ArrowLeft', view.from - step],
      ['ArrowDown', view.from - step],
      ['ArrowRight', view.from + step],
      ['ArrowUp', view.from + step],
      ['PageUp', view.from + 4 * step],
      ['PageDown', view.from - 4 * step],
      ['Home', 0],
      ['End', view.sheet.duration],
    ]).get(key);
  }

  paint(scene: Scene, lead: string): void {
    const canvas = this.panel.wholeCanvas;
    const context = canvas.getContext('2d', { alpha: false });
    if (!context) return;
    const size = { width: canvas.width / scene.density, height: canvas.height / scene.density };
    const key = [lead, canvas.width, canvas.height, ...Object.values(scene.inks)].join(' ');
    if (this.still?.key !== key) {
      const still = element('canvas');
      still.width = canvas.width;
      still.height = canvas.height;
      const brush = still.getContext('2d', { alpha: false });
      if (!brush) return;
      paintWhole(brush, scene, size);
      this.still = { key, canvas: still };
    }
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.drawImage(this.still.canvas, 0, 0);
    paintFrame(context, scene, size);
    this.tell();
  }

  private tell(): void {
    const { view } = this.sight;
    const { duration } = view.sheet;
    const { whole } = this.panel;
    const from = view.from.toFixed(1);
    const to = Math.min(duration, endOf(view)).toFixed(1);
    whole.setAttribute('aria-valuemax', Math.max(0, duration - shown(view)).toFixed(1));
    whole.setAttribute('aria-valuenow', from);
    whole.setAttribute(
      'aria-valuetext',
      this.say('overviewAt', { from, to, seconds: Math.round(duration) }),
    );
  }
}
