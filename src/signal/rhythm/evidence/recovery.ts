import { share } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';

/**
 * Share of beats that a T wave follows, as high as asked and all one way: a ventricle that was excited recovers, an
 * atrium hardly shows it, and a spike of a pacemaker or another device does not. Common practice.
 * @param least height of the T waves that count, mV
 */
export function shareRecovering(beats: readonly MarkedBeat[], least: number): number {
  return Math.max(
    share(beats, ({ t }) => t !== null && t.height >= least),
    share(beats, ({ t }) => t !== null && t.height <= -least),
  );
}
