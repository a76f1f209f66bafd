import type { Evidence } from './evidence.js';
import { mostHidden } from './hidden-p.js';

/** Share of a P halfway between the others, at the least: one is there. Own choice, not a clinical number. */
export const SHOWN = 0.6;
/** Where the intervals vary enough to tell, so much of it keeps the time of the atria. Own choice, not a clinical number. */
const CLOCKED = 0.5;

/** How much of a second P shows halfway between the P waves, at the least; NaN where it is not shown. */
export function shownSecondP(evidence: Evidence): number {
  const { between, besideQrs, clockedP } = evidence;
  const most = mostHidden(between.hiddenP);
  if (most < SHOWN) return Number.NaN;
  // A QRS covers the place to all but a look at its own ends.
  const shown = Number.isNaN(most) ? besideQrs() : between.shownHalfway();
  return shown >= SHOWN && !(clockedP().half <= CLOCKED) ? shown : Number.NaN;
}
