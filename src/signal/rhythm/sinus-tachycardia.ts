import { rateBeyondRange } from './rate-beyond-range.js';
import type { Rhythm } from './rhythm.js';
import { RANGE_TABLE } from './source.js';

/** The sinus node leads, faster than the range. */
export const sinusTachycardia: Rhythm = {
  names: ['sinus tachycardia'],
  criteria: ['all of sinus rhythm', 'rate above the range of the species'],
  source: RANGE_TABLE,
  find: (evidence) => rateBeyondRange('sinus tachycardia', 'high', evidence),
};
