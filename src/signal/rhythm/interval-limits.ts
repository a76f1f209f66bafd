import type { Species } from '../../record/vocabulary.js';
import type { Patient } from '../marked-beat.js';
import { type RangeUsed, reason } from '../reason.js';
import { RANGE_TABLE, type Source } from './source.js';

/** Limits of one patient's intervals, s, and what they rest on. */
export interface IntervalLimits {
  /** A QRS up to this is narrow. */
  readonly narrowQrs: number;
  /** A QRS over this is wide. Between the two it is neither. */
  readonly wideQrs: number;
  /** A PR under this is short. */
  readonly shortPr: number;
  /** A PR over this is long. */
  readonly longPr: number;
  /** P is taken as leading to a QRS up to this long before it. */
  readonly farthestP: number;
  /** PR intervals this near to each other are equal: the reading error of a P onset. */
  readonly equalPr: number;
  /** T is over this long after R at a slow rate. */
  readonly tOver: number;
  /** The longest QT of the species, s. */
  readonly longestQt: number;
  readonly source: Source;
  readonly used: RangeUsed;
}

/** What separates the dog's "large breed" limits. From memory, unverified. */
const LARGE_DOG = 20;

/**
 * Source: Small Animal Internal Medicine, 6th ed., Table 2.4, awake, lead II.
 * Narrow: the range's upper end (dog 0.05 small, 0.06 large; cat 0.04) plus 0.01 s, which is how far
 * the ends of an averaged QRS are misread. Wide: over 0.08 s in the dog, 0.06 s in the cat, where the
 * same table begins to think of bundle branch block. PR: 0.06 to 0.13 and 0.05 to 0.09 s. QT: 0.25 and 0.18 s, at the most 0.27 and 0.2.
 * Equal PR: common practice reads to half a small box at 50 mm/s, 0.01 s; two readings differ by 0.015.
 */
const LIMITS: Partial<Record<Species, Omit<IntervalLimits, 'source' | 'used'>>> = {
  dog: {
    narrowQrs: 0.06,
    wideQrs: 0.08,
    shortPr: 0.06,
    longPr: 0.13,
    farthestP: 0.35,
    equalPr: 0.015,
    tOver: 0.25,
    longestQt: 0.27,
  },
  cat: {
    narrowQrs: 0.05,
    wideQrs: 0.06,
    shortPr: 0.05,
    longPr: 0.09,
    farthestP: 0.25,
    equalPr: 0.012,
    tOver: 0.18,
    longestQt: 0.2,
  },
};

/** Null for species without published limits at hand (rabbit, ferret). */
export function intervalLimits({ species, weight }: Patient): IntervalLimits | null {
  const limits = LIMITS[species];
  if (!limits) return null;
  const isLarge = species === 'dog' && weight > LARGE_DOG;
  return {
    ...limits,
    narrowQrs: limits.narrowQrs + (isLarge ? 0.01 : 0),
    source: RANGE_TABLE,
    used:
      species === 'dog'
        ? reason('awake intervals by size', { species, size: isLarge ? 'large' : 'small' })
        : reason('awake intervals', { species }),
  };
}

/** No ventricle is crossed sooner than this, s: what is shorter is a spike, of a pacemaker or of a device nearby. From memory, unverified. */
export const SHORTEST_QRS = 0.015;

/** Whether a QRS of this width, s, is narrow: one that no ventricle was slow to be crossed by, and no spike. */
export const isNarrow = (width: number, { narrowQrs }: IntervalLimits): boolean =>
  width >= SHORTEST_QRS && width <= narrowQrs;

/** How far before R a P is looked for, s, in any species. From memory, unverified. */
export const FARTHEST_P: Record<Species, number> = {
  dog: 0.35,
  cat: 0.25,
  rabbit: 0.2,
  ferret: 0.2,
};

/** PR intervals this near to each other count as equal, s: reading error, as for `LIMITS`. Common practice. */
export const EQUAL_PR: Record<Species, number> = {
  dog: 0.015,
  cat: 0.012,
  rabbit: 0.012,
  ferret: 0.012,
};
