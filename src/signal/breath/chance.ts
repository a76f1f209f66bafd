import type { BreathClock } from './breath-clock.js';
import { followShare } from './follow.js';
import type { Intervals } from './intervals.js';
import { Phases } from './phases.js';
import { seededWholeNumbers } from './seeded.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** At most so many; each is one more way that the same heart could have beaten. */
const SURROGATES = 999;
/** Once so many gave as much, by either measure, more of them would not change the answer. */
const ENOUGH = 20;
const SEED = 20260310;

/** What is compared with chance; each the largest that any clock gives. */
export interface Measures {
  /** Share of the swing of the intervals that follows the breath, 0 to 1. */
  readonly follow: number;
  /** Mean resultant length of the beats' phases. */
  readonly cluster: number;
}

/**
 * How likely chance is to give a measure at least as large: (k + 1) / (n + 1), where k of n surrogates did, so that the
 * strip itself counts among them and the value is never 0. Source: Davison and Hinkley 1997 (from memory, unverified).
 */
export interface Chance {
  /** How many were drawn. */
  readonly surrogates: number;
  readonly follow: number;
  readonly cluster: number;
}

/** How many of the surrogates had at least as large a measure, the strip itself not counted among them. */
export const asLarge = (
  chance: Chance,
  which: Exclude<keyof Chance, 'surrogates'> = 'follow',
): number => Math.round(chance[which] * (chance.surrogates + 1)) - 1;

/** Both measures of the strip as it is, and the clock that gives the larger follow. */
export function measure(
  { n, swing, middles, rr }: Intervals,
  clocks: readonly BreathClock[],
): Measures & { readonly clock: BreathClock } {
  let best = { follow: -1, clock: clocks[0] as BreathClock };
  let cluster = 0;
  const phases = new Phases(n);
  for (const clock of clocks) {
    for (let i = 0; i < n; i += 1) phases.point(i, clock.turnsAt(middles[i] as number));
    const follow = followShare(swing, phases);
    if (follow > best.follow) best = { follow, clock };
    for (let i = 0; i < n; i += 1) {
      phases.point(i, clock.turnsAt((middles[i] as number) + (rr[i] as number) / 2));
    }
    cluster = Math.max(cluster, phases.gathered());
  }
  return { ...best, cluster };
}

/**
 * How often chance alone gives as much. A surrogate is the same heart with the same intervals in
 * another order: short blocks of the swings (at most half a breath long, cut at random places) are
 * shuffled, laid on the same slow drift, and beats are placed anew, then measured in the same way,
 * the search over `clocks` included.
 *
 * Why not a shift of the breaths against the beats: a ventilator is so regular that every shift gives
 * the same phases but for a constant, so all surrogates would equal the strip. Why blocks: neighbouring
 * intervals resemble each other, and single intervals shuffled would make chance look too tame. The
 * first beat and the whole length stay, so beats that keep in step with the breath at a whole number
 * to one do so in the surrogates also, and count for nothing. Drawing stops early once both measures
 * were matched often enough to be chance (sequential Monte Carlo p-value, Besag and Clifford 1991;
 * from memory, unverified).
 */
export function chance(
  intervals: Intervals,
  clocks: readonly BreathClock[],
  found: Measures,
): Chance {
  const { n, rr, swing, middles, opens } = intervals;
  const whole = seededWholeNumbers(SEED);
  const drift = rr.map((value, i) => value - (swing[i] as number));
  const meanRr = rr.reduce((sum, value) => sum + value, 0) / n;
  const longestBlock = Math.max(1, Math.floor((clocks[0] as BreathClock).period / meanRr / 2));
  const shuffled = new Float64Array(n);
  const placed = {
    ...intervals,
    rr: new Float64Array(n),
    swing: shuffled,
    middles: middles.slice(),
  };
  let follow = 1;
  let cluster = 1;
  let drawn = 0;
  while (drawn < SURROGATES && (follow <= ENOUGH || cluster <= ENOUGH)) {
    drawn += 1;
    shuffleBlocks(swing, shuffled, longestBlock, whole);
    let time = 0;
    for (let i = 0; i < n; i += 1) {
      const opened = opens[i] as number;
      if (!Number.isNaN(opened)) time = opened;
      const interval = (drift[i] as number) + (shuffled[i] as number);
      placed.rr[i] = interval;
      placed.middles[i] = time + interval / 2;
      time += interval;
    }
    const got = measure(placed, clocks);
    // A hair's breadth of rounding must not make an equal surrogate look smaller.
    if (got.follow >= found.follow - 1e-12) follow += 1;
    if (got.cluster >= found.cluster - 1e-12) cluster += 1;
  }
  return {
    surrogates: drawn,
    follow: follow / (drawn + 1),
    cluster: cluster / (drawn + 1),
  };
}

/** `from` cut into blocks of 1 to `longest` at random and laid into `into` in random order. */
function shuffleBlocks(
  from: Float64Array,
  into: Float64Array,
  longest: number,
  whole: (below: number) => number,
): void {
  const starts: number[] = [];
  for (let at = 0; at < from.length; at += 1 + whole(longest)) starts.push(at);
  const order = starts.map((_, i) => i);
  for (let i = order.length - 1; i > 0; i -= 1) {
    const j = whole(i + 1);
    const kept = order[i] as number;
    order[i] = order[j] as number;
    order[j] = kept;
  }
  let at = 0;
  for (const block of order) {
    const end = starts[block + 1] ?? from.length;
    for (let i = starts[block] as number; i < end; i += 1) into[at++] = from[i] as number;
  }
}
