/**
 * A loop over a whole recording is run in pieces of this many samples, each a call of its own: a function that is called
 * often is compiled for good, while a loop that is compiled as it runs keeps every running sum in an object of its own. Not a clinical number.
 */
export const PIECE = 2048;

/**
 * The places from 0 to `length`, piece by piece. What is done on a piece belongs into a function at the top of its
 * module: what is compiled of a function that is made anew in each call (an arrow within another) is lost with it.
 */
export function pieces(length: number): readonly (readonly [from: number, to: number])[] {
  const out: [number, number][] = [];
  for (let from = 0; from < length; from += PIECE) out.push([from, Math.min(length, from + PIECE)]);
  return out;
}
