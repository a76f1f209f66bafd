import { median } from '../filter/spread.js';
import { droppedBeats } from './evidence/dropped-beats.js';
import type { Evidence } from './evidence/evidence.js';
import { WAVES } from './evidence/low-and-alone.js';
import { type Finding, finding } from './rhythm.js';

/** So many beats before and after tell how P leads, and when the next is due. Own choice, not a clinical number. */
export const BESIDE = 12;

/** A trace with P alone moves by less than this share of their height (root mean square); a wide QRS that was not counted moves it by more. Own choice, not a clinical number. */
const P_ALONE = 0.6;

/**
 * High-grade block where the ventricles rest for a while, or null: P waves march on through the stretch as before and after
 * it, where they lead. `around` is the evidence of the stretch with the beats beside it. Source: common practice.
 */
export function standstillBetween(around: Evidence, stretch: Evidence): Finding | null {
  // A pulse that goes on is that of beats which the leads do not show.
  if (stretch.pulse === 'present' || around.conduction.mostInARow < WAVES) return null;
  const dropped = droppedBeats(around);
  if (dropped?.form !== 'high-grade') return null;
  if (!((stretch.activity()?.strength ?? Number.NaN) <= P_ALONE * heightOfP(around))) return null;
  return finding(
    'second-degree atrioventricular block, high-grade',
    stretch,
    dropped.confidence,
    dropped.because,
  );
}

/** The middle one of the P waves that lead, mV. */
const heightOfP = ({ above }: Evidence): number =>
  median(above.flatMap(({ p }) => (p ? [Math.abs(p.height)] : [])));
