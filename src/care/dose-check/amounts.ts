import type { Span } from '../../record/formulary-schema.js';
import { roundTo } from '../../units/round.js';

/** More by a margin that no rounding of binary fractions makes. */
export const above = (value: number, limit: number) => value > limit * (1 + 1e-9);
/** Both ends included. */
export const within = (value: number, [low, high]: Span) =>
  !above(value, high) && !above(low, value);

/** Below it two digits say more than three decimals: no dose is told as 0. Not a clinical number. */
const SMALLEST_SHOWN = 0.01;

/** As messages write an amount. */
export const shown = (value: number) =>
  String(value < SMALLEST_SHOWN ? Number(value.toPrecision(2)) : roundTo(value, 3));
/** As messages write a range. */
export const spanned = ([low, high]: Span) =>
  low === high ? shown(low) : `${shown(low)} to ${shown(high)}`;
