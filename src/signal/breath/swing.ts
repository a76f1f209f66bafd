import type { Intervals } from './intervals.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** How far the mean interval goes from one part of the breath to another. */
export interface Swing {
  /** Mean RR of the part of the breath with the longest, ms. */
  readonly longest: number;
  readonly shortest: number;
  /** Their difference, ms. */
  readonly milliseconds: number;
  /** The same as rates, beats/min. */
  readonly slowestRate: number;
  readonly fastestRate: number;
  /** Middle of the part of the breath with the shortest intervals, turns from its start. */
  readonly fastestAt: number;
}

const PARTS = 6;
/** A mean of fewer intervals says little of its part. */
const FEWEST_IN_PART = 3;

/**
 * Mean RR in each sixth of the breath, each interval counted where its middle falls; null where
 * fewer than two parts have three intervals. Chance alone makes a small swing too, so this tells a
 * size only once the link is shown.
 */
export function swingOver(
  { n, rr, middles }: Intervals,
  turnsAt: (time: number) => number,
): Swing | null {
  const sums = new Float64Array(PARTS);
  const counts = new Float64Array(PARTS);
  for (let i = 0; i < n; i += 1) {
    const turns = turnsAt(middles[i] as number);
    const part = Math.min(PARTS - 1, Math.floor(PARTS * (turns - Math.floor(turns))));
    sums[part] = (sums[part] as number) + (rr[i] as number);
    counts[part] = (counts[part] as number) + 1;
  }
  const parts = [...sums]
    .map((sum, part) => ({
      part,
      count: counts[part] as number,
      mean: (1000 * sum) / (counts[part] as number),
    }))
    .filter(({ count }) => count >= FEWEST_IN_PART)
    .sort((a, b) => a.mean - b.mean);
  const least = parts[0];
  const most = parts.at(-1);
  if (!least || !most || parts.length < 2) return null;
  return {
    longest: most.mean,
    shortest: least.mean,
    milliseconds: most.mean - least.mean,
    slowestRate: 60000 / most.mean,
    fastestRate: 60000 / least.mean,
    fastestAt: (least.part + 0.5) / PARTS,
  };
}
