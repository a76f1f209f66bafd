import type { LiveStrip } from '../contract.js';
import type { Moment } from '../cursor.js';

/** A minute of anesthesia as a moment: with its place on the strip that runs then, where the record tells when it began. */
export function momentAt(minute: number, strips: readonly LiveStrip[]): Moment {
  const strip = strips.findIndex(
    ({ begins, analysis }) =>
      begins !== null && minute >= begins && minute <= begins + analysis.duration / 60,
  );
  const begins = strips[strip]?.begins;
  return {
    minute,
    onStrip:
      begins === null || begins === undefined ? null : { strip, second: (minute - begins) * 60 },
  };
}

/** The minute of a moment; null where it lies on a strip of which the record does not tell when it began. */
export function minuteOf({ minute, onStrip }: Moment, strips: readonly LiveStrip[]): number | null {
  if (minute !== null) return minute;
  const begins = onStrip && strips[onStrip.strip]?.begins;
  return typeof begins === 'number' && onStrip ? begins + onStrip.second / 60 : null;
}
