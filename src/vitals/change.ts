import { type Reading, spreadOf } from './channel.js';

/** Minutes before and after an event that are compared. Two readings of the usual five minutes: common practice. */
export const COMPARED_MINUTES = 10;

/** The middle of the readings of one side of an event; a single one may be off, and is told as one. */
interface Side {
  readonly median: number;
  readonly count: number;
}

/** Readings before an event and after it; null where there is none. */
export interface Change {
  readonly before: Side | null;
  readonly after: Side | null;
  /** After less before; null where a side is missing. */
  readonly difference: number | null;
}

/**
 * What a channel showed in the minutes up to an event, and in those after it.
 * @param others minutes of the other steps: no side reaches over one, lest it tell of two steps at once
 */
export function changeAt(
  minute: number,
  readings: readonly Reading[],
  others: readonly number[] = [],
): Change {
  const last = Math.max(...others.filter((other) => other < minute), Number.NEGATIVE_INFINITY);
  const next = Math.min(...others.filter((other) => other > minute), Number.POSITIVE_INFINITY);
  // A reading at the minute of a step was taken before it showed.
  const before = side(
    readings,
    (at) => at <= minute && at > last && at >= minute - COMPARED_MINUTES,
  );
  const after = side(
    readings,
    (at) => at > minute && at <= next && at <= minute + COMPARED_MINUTES,
  );
  return {
    before,
    after,
    difference: before && after ? after.median - before.median : null,
  };
}

function side(readings: readonly Reading[], isWithin: (minute: number) => boolean): Side | null {
  const spread = spreadOf(readings.filter(({ minute }) => isWithin(minute)));
  return spread && { median: spread.median, count: spread.count };
}

/**
 * A change of mean pressure below this is not told from the error of the device, mmHg. Source: the mean difference of at
 * most 10 mmHg that the ACVIM consensus on systemic hypertension (Brown and others 2007) asks of an indirect device (from
 * memory, unverified).
 */
export const LEAST_PRESSURE_CHANGE = 10;
