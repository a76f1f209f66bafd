import type { Span } from '../../record/formulary-schema.js';
import { roundTo } from '../../units/round.js';

/** More by a margin that no rounding of binary fractions makes. */
export const above = (value: number, limit: number) => value > limit * (1 + 1e-9);
/** Both ends included. */
export const within = (value: number, [low, high]: Span) =>
  !above(value, high) && !above(low, value);

/** As messages write an amount. */
export const shown = (value: number) => String(roundTo(value, 3));
/** As messages write a range. */
export const spanned = ([low, high]: Span) =>
  low === high ? shown(low) : `${shown(low)} to ${shown(high)}`;
