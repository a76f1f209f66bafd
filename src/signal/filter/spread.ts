import { nthSmallest } from './order-statistics.js';

/** Middle value of all of them, none of which is NaN: the mean of the two middle ones for an even count; NaN for none. */
export function median(values: ArrayLike<number>): number {
  return quantile(values, 0.5);
}

/** Value below which the share `at` (0 to 1) lies, on a straight line between neighbours; NaN for none. */
export function quantile(values: ArrayLike<number>, at: number): number {
  if (values.length === 0) return Number.NaN;
  const ranked = rearrangeable(values);
  const place = at * (ranked.length - 1);
  const rank = Math.floor(place);
  const below = nthSmallest(ranked, rank);
  if (rank === place) return below;
  let above = ranked[rank + 1]!;
  for (let i = rank + 2; i < ranked.length; i += 1) above = Math.min(above, ranked[i]!);
  return below + (above - below) * (place - rank);
}

/** Ranking a few values is asked for often: they are laid here rather than into an array of their own. */
const few = Array.from({ length: 65 }, (_, length) => new Float64Array(length));

/** The values in an array that may be rearranged until the next call. */
function rearrangeable(values: ArrayLike<number>): Float64Array {
  const out = few[values.length];
  if (!out) return new Float64Array(values);
  for (let i = 0; i < out.length; i += 1) out[i] = values[i]!;
  return out;
}

/** The arithmetic mean; NaN of none. */
export function mean(values: readonly number[]): number {
  return values.length === 0 ? Number.NaN : sumOf(values) / values.length;
}

/** The sum; 0 of none. */
export function sumOf(values: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < values.length; i += 1) sum += values[i]!;
  return sum;
}

/** The smallest and the largest value, Infinity and -Infinity for none; a day's beats are too many to be arguments. */
export function leastOf(values: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < values.length; i += 1) least = Math.min(least, values[i]!);
  return least;
}

/** The largest value; -Infinity of none. */
export function mostOf(values: readonly number[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < values.length; i += 1) most = Math.max(most, values[i]!);
  return most;
}

/** From each value to the next: one fewer than there are values. */
export function differences(values: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 1; i < values.length; i += 1) out.push(values[i]! - values[i - 1]!);
  return out;
}

/** How far each value lies from `middle`. */
function distancesFrom(middle: number, values: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < values.length; i += 1) out.push(Math.abs(values[i]! - middle));
  return out;
}

/** Share of the values that pass; 0 for none. */
export function share<T>(
  values: readonly T[],
  passes: (value: T, index: number) => boolean,
): number {
  return values.length === 0 ? 0 : values.filter(passes).length / values.length;
}

/**
 * Middle distance from the middle value, as a fraction of it: a few odd values, as a missed beat
 * leaves, do not count. NaN for fewer than three. For a normal spread 0.67 of the variation.
 * @param part the distance that this share of the values keeps, 0 to 1
 */
export function unevenness(values: readonly number[], part = 0.5): number {
  if (values.length < 3) return Number.NaN;
  const middle = median(values);
  return quantile(distancesFrom(middle, values), part) / middle;
}

/**
 * Middle change from one value to the next, or to the one that comes `later`, as a fraction of the middle value; NaN for
 * fewer than two more than that.
 */
export function beatToBeatChange(values: readonly number[], later = 1): number {
  if (values.length < later + 2) return Number.NaN;
  const changes: number[] = [];
  for (let i = later; i < values.length; i += 1)
    changes.push(Math.abs(values[i]! - values[i - later]!));
  return median(changes) / median(values);
}

/** The value that most others lie within `near` of, the first of equals: how many those are, itself among them, and their middle. NaN for none. */
export function mode(
  values: readonly number[],
  near: number,
): { readonly count: number; readonly middle: number } {
  const sorted = new Float64Array(values).sort();
  const { first, count } = nearEach(sorted, near);
  let most = 0;
  for (let i = 0; i < count.length; i += 1) if (count[i]! > most) most = count[i]!;
  const isMode = new Set<number>();
  for (let i = 0; i < count.length; i += 1) if (count[i] === most) isMode.add(sorted[i]!);
  const value = values.find((v) => isMode.has(v));
  if (value === undefined) return { count: 0, middle: Number.NaN };
  const from = first[sorted.indexOf(value)]!;
  return { count: most, middle: median(sorted.subarray(from, from + most)) };
}

/** For each of values that ascend the place of the first that is near it, and how many are. */
function nearEach(sorted: Float64Array, near: number) {
  const firsts = new Uint32Array(sorted.length);
  const counts = new Uint32Array(sorted.length);
  // As the values rise, so do both ends of what is near them.
  let first = 0;
  let end = 0;
  for (let i = 0; i < sorted.length; i += 1) {
    while (sorted[i]! - sorted[first]! > near) first += 1;
    while (end < sorted.length && sorted[end]! - sorted[i]! <= near) end += 1;
    firsts[i] = first;
    counts[i] = end - first;
  }
  return { first: firsts, count: counts };
}

/** Correlation of two rows of equal length, -1 to 1; 0 where one of them does not vary or has a NaN. */
export function correlation(one: Float64Array, other: Float64Array): number {
  let a = 0;
  let b = 0;
  for (let i = 0; i < one.length; i += 1) {
    a += one[i]!;
    b += other[i]!;
  }
  a /= one.length;
  b /= one.length;
  let cross = 0;
  let first = 0;
  let second = 0;
  for (let i = 0; i < one.length; i += 1) {
    const x = one[i]! - a;
    const y = other[i]! - b;
    cross += x * y;
    first += x * x;
    second += y * y;
  }
  const product = first * second;
  return product > 0 ? cross / Math.sqrt(product) : 0;
}
