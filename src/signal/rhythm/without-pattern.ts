import { beatToBeatChange, unevenness } from '../filter/spread.js';

/** Intervals that come back at every second, third or fourth beat follow a rule: groups of beats, or P counted among them. Own choice, not a clinical number. */
const GROUPS = [1, 2, 3, 4];

/**
 * Whether half of the intervals, s, lie over a share off the middle one, and off each of the four before: as the node lets
 * through what fibrillating atria send. False for fewer than seven.
 */
export const isWithoutPattern = (intervals: readonly number[], off: number): boolean =>
  unevenness(intervals) >= off &&
  GROUPS.every((later) => beatToBeatChange(intervals, later) >= off);
