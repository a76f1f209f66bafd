import type { Reason } from '../../reason.js';

/** What a proof asks, and whether a stretch meets it. */
export interface Demand {
  readonly passes: boolean;
  readonly why: Reason;
}

/** A value that is no number passes neither this nor `atMost`. */
export const atLeast = (value: number, limit: number, why: Reason): Demand => ({
  passes: value >= limit,
  why,
});

/** The same with an upper limit. */
export const atMost = (value: number, limit: number, why: Reason): Demand => ({
  passes: value <= limit,
  why,
});
