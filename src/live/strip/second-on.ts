import type { Moment } from '../cursor.js';

/** Where a strip lies among what a page shows. */
export interface StripPlace {
  /** Index of the strip on the page. */
  readonly strip: number;
  /** Minute of anesthesia of its first sample; null where the record does not tell. */
  readonly begins: number | null;
  /** s. */
  readonly duration: number;
}

/** The second of a strip at a moment that another figure points at; null where the moment lies elsewhere. */
export function secondOn(
  { onStrip, minute }: Moment,
  { strip, begins, duration }: StripPlace,
): number | null {
  if (onStrip !== null) return onStrip.strip === strip ? onStrip.second : null;
  if (minute === null || begins === null) return null;
  const second = (minute - begins) * 60;
  return second >= 0 && second <= duration ? second : null;
}

/** The moment of a second of a strip, for the other figures. */
export const momentOf = (second: number, { strip, begins }: StripPlace): Moment => ({
  onStrip: { strip, second },
  minute: begins === null ? null : begins + second / 60,
});
