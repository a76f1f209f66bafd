/**
 * A loop over a whole recording is run in pieces of this many samples, each a call of its own: a function that is called
 * often is compiled for good, while a loop that is compiled as it runs keeps every running sum in an object of its own. Not a clinical number.
 */
const PIECE = 2048;

/** Runs `over` on the places from 0 to `length`, piece by piece. */
export function inPieces(length: number, over: (from: number, to: number) => void): void {
  for (let from = 0; from < length; from += PIECE) over(from, Math.min(length, from + PIECE));
}
