import { type Reading, spreadOf } from './channel.js';

/** Minutes before and after an event that are compared. Two readings of the usual five minutes: common practice. */
export const COMPARED_MINUTES = 10;

/** With fewer readings on a side nothing is compared: a single one may be off. Our own choice: not a clinical number. */
const FEWEST = 2;

/** The middle of the readings of one side of an event. */
interface Side {
  readonly median: number;
  readonly count: number;
}

/** Readings before an event and after it; null where there are too few. */
export interface Change {
  readonly before: Side | null;
  readonly after: Side | null;
  /** After less before; null where a side is missing. */
  readonly difference: number | null;
}

/** What a channel showed in the minutes up to an event, and in those after it. */
export function changeAt(minute: number, readings: readonly Reading[]): Change {
  const before = side(readings, (at) => at <= minute && at >= minute - COMPARED_MINUTES);
  const after = side(readings, (at) => at > minute && at <= minute + COMPARED_MINUTES);
  return {
    before,
    after,
    difference: before && after ? after.median - before.median : null,
  };
}

function side(readings: readonly Reading[], isWithin: (minute: number) => boolean): Side | null {
  const spread = spreadOf(readings.filter(({ minute }) => isWithin(minute)));
  return spread && spread.count >= FEWEST ? { median: spread.median, count: spread.count } : null;
}

/**
 * A change of mean pressure below this is not told from the error of the device, mmHg. Source: the mean difference of at
 * most 10 mmHg that the ACVIM consensus on systemic hypertension (Brown and others 2007) asks of an indirect device (from
 * memory, unverified).
 */
export const LEAST_PRESSURE_CHANGE = 10;
