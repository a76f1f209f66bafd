import type { Reading } from '../vitals/channel.js';
import { agrees } from './agreeing-rates.js';
import type { StripFacts } from './case-facts.js';

/** Displayed rates that are not beats of the heart, minutes since the start of anesthesia. */
export interface Miscounted {
  readonly from: number;
  readonly to: number;
  /** What the count on a strip showed of the display. */
  readonly relation: 'about double' | 'about half';
  /** Minutes of the readings that were held against the count; those beside them are as high. */
  readonly shown: readonly [from: number, to: number];
}

/**
 * Displayed rates known to be counted twice, or half: those that a strip refutes, and the readings on end with them that
 * hardly differ, since a display that counts a beat twice does so until something changes.
 */
export function miscounted(
  strips: readonly Pick<StripFacts, 'shown'>[],
  readings: readonly Reading[],
): Miscounted[] {
  return strips.flatMap(({ shown }) =>
    (shown.value?.shown ?? []).flatMap(({ from, to, relation }): Miscounted[] => {
      if (relation !== 'about double' && relation !== 'about half') return [];
      const [first, last] = [
        readings.findIndex(({ minute }) => minute >= from),
        readings.findLastIndex(({ minute }) => minute <= to),
      ];
      const [begin, end] = [
        readings[reachOf(readings, first, -1)],
        readings[reachOf(readings, last, 1)],
      ];
      return begin && end
        ? [{ from: begin.minute, to: end.minute, relation, shown: [from, to] }]
        : [];
    }),
  );
}

/** The last of the readings on end from one on that each hardly differ from the one before. */
function reachOf(readings: readonly Reading[], from: number, by: 1 | -1): number {
  let at = from;
  for (;;) {
    const [here, next] = [readings[at], readings[at + by]];
    if (!here || !next || !agrees(here.value, next.value)) return at;
    at += by;
  }
}
