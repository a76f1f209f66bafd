import { rateBeyondRange } from './rate-beyond-range.js';
import type { Rhythm } from './rhythm.js';
import { COMMON_PRACTICE } from './source.js';

/** The sinus node leads, slower than the range. */
export const sinusBradycardia: Rhythm = {
  names: ['sinus bradycardia'],
  criteria: ['all of sinus rhythm', 'rate below the range of the species'],
  source: COMMON_PRACTICE,
  find: (evidence) => rateBeyondRange('sinus bradycardia', 'low', evidence),
};
