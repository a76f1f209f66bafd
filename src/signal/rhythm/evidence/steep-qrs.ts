import type { ShapeFamily } from '../../beats/families.js';

/** P waves stay under this, QRS over it, mV/s. From memory, unverified; a beat whose QRS is less may be a P alone. */
export const STEEP = 20;

/** Whether the QRS of a family rises too steeply to be a P alone. */
export function isSteep(family: ShapeFamily | undefined): boolean {
  return family !== undefined && family.steepness >= STEEP;
}
