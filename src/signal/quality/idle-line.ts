import { searchRate } from '../filter/qrs-steepness.js';
import type { Blemish } from './span.js';

/**
 * The hiss of electrodes and recorder (to 0.02 mV, root mean square) stays under this, the smallest
 * P wave over it; mV/s in the band of the QRS. Own choice, by trial on generated strips: not a
 * clinical number.
 */
const idle = 1.5;
/** The longest pause that is left to a heart between its beats; in s. Own choice, not a clinical number. */
const longest = 8;

/**
 * Stretches with nothing but hiss: from a lead that came off or a heart at rest. `steepness` in mV/s
 * at `searchRate`; positions on that grid.
 */
export function idleLine(steepness: Float64Array): Blemish[] {
  const least = Math.min(longest * searchRate, steepness.length);
  const out: Blemish[] = [];
  let from = 0;
  for (let i = 0; i <= steepness.length; i++) {
    if (i < steepness.length && steepness[i]! < idle) continue;
    if (i > from && i - from >= least) out.push({ from, to: i, why: 'flat line' });
    from = i + 1;
  }
  return out;
}
