/**
 * Centimetres of trunk, from the neck to the tail, that the cube root of a kilogram has at most: a body that is eight times
 * as heavy is twice as long. Generous also for long breeds, so that a slipped digit or cm for mm shows and a long incision
 * does not. Own choice, not a clinical number.
 */
const TRUNK_OF_A_KILOGRAM = 25;

/** The longest incision, in mm, that finds room on a trunk of so many kg. */
export const longestIncision = (weight: number): number =>
  TRUNK_OF_A_KILOGRAM * 10 * Math.cbrt(weight);
