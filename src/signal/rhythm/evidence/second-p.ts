import type { Evidence } from './evidence.js';
import { mostHidden } from './hidden-p.js';

/** Share of a P halfway between the others, at the least: one is there. Own choice, not a clinical number. */
export const SHOWN = 0.6;
/** Where the intervals vary enough to tell, so much of it keeps the time of the atria. Own choice, not a clinical number. */
const CLOCKED = 0.5;

/** How much of a second P shows halfway between the P waves, at the least; NaN where it is not shown. */
export function shownSecondP(evidence: Evidence): number {
  if (!(mostHidden(evidence.between.hiddenP) >= SHOWN)) return Number.NaN;
  const shown = evidence.between.shownHalfway();
  return shown >= SHOWN && !(evidence.clockedP().half <= CLOCKED) ? shown : Number.NaN;
}
