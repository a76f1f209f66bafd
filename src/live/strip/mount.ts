import type { LiveCase } from '../contract.js';
import type { Cursor } from '../cursor.js';
import { whenNear } from '../when-near.js';
import { liveStrip } from './live-strip.js';

/** Brings each strip of the page to life, where the page has its figure. */
export function mountStrips(page: LiveCase, cursor: Cursor): void {
  page.strips.forEach((strip, place) => {
    const figure = document.querySelector<HTMLElement>(`figure[data-figure="${strip.figure}"]`);
    if (figure) whenNear(figure, () => liveStrip(figure, strip, place, page, cursor));
  });
}
