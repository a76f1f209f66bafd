// Choices of the method and codes of file formats: not clinical numbers.

import type { Spelling } from './spellings.js';

/**
 * How letters stand to the ones before them. A spelling is written in one of two manners, `together` or with all its
 * letters `apart`, and in each of them a letter may stand beside the one before it, behind a gap, or both. A bit for each.
 */
const TOGETHER = 1;
const APART = 2;
const BESIDE = TOGETHER | APART;
const BEHIND_A_GAP = BESIDE << 2;
/** Both manners, as long as nothing speaks against either. */
export const ANY_MANNER = BESIDE;

/** The manners that are left of some, once a letter with these bits has stood beside the last one or behind a gap. */
export const mannersLeft = (manners: number, bits: number, gap: boolean): number =>
  manners & (gap ? bits >> 2 : bits);

/** How a letter may stand to the one before it: nothing that `match.ts` would accept is left out. */
export function bitsOf({ letters, shape, joints }: Spelling, index: number): number {
  const size = letters.length;
  // What stands before the first is no matter of the spelling.
  if (index === 0) return BESIDE | BEHIND_A_GAP;
  const joint = joints.includes(index);
  switch (shape) {
    case 'name':
      if (joint) return BESIDE | BEHIND_A_GAP;
      return TOGETHER | (size >= 5 ? APART << 2 : 0);
    case 'number': {
      if (joint || size >= 12) return BESIDE | BEHIND_A_GAP;
      // Groups of one digit are none, unless all of them are.
      const lone = index === 1 || index === size - 1;
      return TOGETHER | (APART << 2) | (lone ? 0 : TOGETHER << 2);
    }
    case 'joined':
    case 'compact':
      return TOGETHER;
    case 'figures':
    case 'short year':
      return joint ? TOGETHER << 2 : TOGETHER;
  }
}
