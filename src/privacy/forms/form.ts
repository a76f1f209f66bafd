/** A form that identifiers have, and what a text in it is called. The expression looks for all places (`g`). */
export type Form = readonly [what: string, form: RegExp];

/** Anything but a letter or a digit stands before and behind. */
export const apart = (source: string, flags = 'gu'): RegExp =>
  new RegExp(`(?<![\\p{L}\\p{N}])(?:${source})(?![\\p{L}\\p{N}])`, flags);
