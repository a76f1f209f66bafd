/**
 * Rates agree within this share, or so many beats/min where that is more: at a slow rate one beat of a short count is more
 * than the share. Source: the accuracy that IEC 60601-2-27 asks of a heart-rate meter, plus or minus 10 % or 5 beats/min,
 * whichever is greater (from memory, unverified).
 */
const AGREES_WITHIN = { share: 0.1, beats: 5 } as const;

/** How far from a rate another one may lie and still agree with it, both in beats/min. */
export const agreesWithin = (rate: number): number =>
  Math.max(AGREES_WITHIN.share * rate, AGREES_WITHIN.beats);

/** Whether a rate agrees with another one, beats/min. */
export const agrees = (rate: number, other: number): boolean =>
  Math.abs(rate - other) <= agreesWithin(other);
