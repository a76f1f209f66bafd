import type { Patient } from '../marked-beat.js';
import { type RangeUsed, reason } from '../reason.js';
import { COMMON_PRACTICE, RANGE_TABLE, type Source } from './source.js';

/** Heart rates that count as neither slow nor fast, beats/min, and what they rest on. */
export interface RateRange {
  readonly low: number;
  readonly high: number;
  /** Beyond this a sinus node is not taken as the cause without doubt. */
  readonly sinusCeiling: number;
  readonly lowSource: Source;
  readonly highSource: Source;
  readonly ceilingSource: Source;
  /** Which range was used: species, age, awake or anesthetised. */
  readonly used: RangeUsed;
}

/**
 * Source: Small Animal Internal Medicine, 6th ed., Table 2.4.
 * Awake: dog 60-160, to 220 in a puppy; cat (120-)140-240 (the wider figure is used, so
 * that a rate called slow is slow by both). No range for anesthetised animals is at hand: the upper
 * end stays that of awake animals, the lower end is the limit of common practice (dog 60, cat 100).
 */
const AWAKE = {
  dog: { low: 60, high: 160, puppy: 220 },
  cat: { low: 120, high: 240, puppy: 240 },
} as const;

/** Lower limits under anesthesia, beats/min. Common practice. */
const ANESTHETISED_LOW = { dog: 60, cat: 100 } as const;

/** Younger than this counts as a puppy, years. From memory, unverified. */
const PUPPY = 0.5;

/**
 * Above these a narrow regular rhythm may be re-entrant: the dog's is the highest published rate
 * (a puppy's), the cat's is common practice.
 */
const CEILING = {
  dog: { rate: 220, source: RANGE_TABLE },
  cat: { rate: 280, source: COMMON_PRACTICE },
} as const;

/** Null for species without a range at hand (rabbit, ferret): their rate is told, not judged. */
export function rateRange({ species, ageYears, anesthetised }: Patient): RateRange | null {
  if (species !== 'dog' && species !== 'cat') return null;
  const awake = AWAKE[species];
  const isPuppy = species === 'dog' && ageYears !== null && ageYears < PUPPY;
  const age = isPuppy ? 'puppy' : ageYears === null ? 'age not known' : 'adult';
  return {
    low: anesthetised ? ANESTHETISED_LOW[species] : awake.low,
    high: isPuppy ? awake.puppy : awake.high,
    sinusCeiling: CEILING[species].rate,
    lowSource: anesthetised ? COMMON_PRACTICE : RANGE_TABLE,
    highSource: RANGE_TABLE,
    ceilingSource: CEILING[species].source,
    used: reason(anesthetised ? 'rate range under anesthesia' : 'awake rate range', {
      species,
      age,
    }),
  };
}
