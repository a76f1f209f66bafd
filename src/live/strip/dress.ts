import type { LiveStrip } from '../contract.js';
import { element } from './element.js';
import type { Panel } from './panel.js';
import type { Say } from './say.js';

/** Puts the panel into the figure; its picture and caption stay for paper. */
export function dress(
  figure: HTMLElement,
  panel: Panel,
  { lead, analysis }: LiveStrip,
  say: Say,
): void {
  const frame = figure.querySelector('.figure-frame');
  const caption = figure.querySelector('figcaption');
  frame?.after(panel.root);
  if (caption) {
    const printed = element('span', { class: 'on-paper' });
    printed.append(...caption.childNodes);
    const seconds = Math.round(analysis.duration);
    const words = say('caption', { lead: lead.label, seconds });
    caption.append(printed, element('span', { class: 'on-screen' }, words));
  }
  figure.dataset.live = 'strip';
}
