import { nthSmallest } from './order-statistics.js';

/** Middle value, the mean of the two middle ones for an even count; NaN for none. */
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

export function mean(values: readonly number[]): number {
  return values.length === 0 ? Number.NaN : values.reduce((a, b) => a + b, 0) / values.length;
}

/** The smallest and the largest value, Infinity and -Infinity for none; a day's beats are too many to be arguments. */
export const leastOf = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
export const mostOf = (values: readonly number[]): number =>
  values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);

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
 */
export function unevenness(values: readonly number[]): number {
  if (values.length < 3) return Number.NaN;
  const middle = median(values);
  return median(values.map((value) => Math.abs(value - middle))) / middle;
}

/** Middle change from one value to the next, as a fraction of the middle value; NaN for fewer than three. */
export function beatToBeatChange(values: readonly number[]): number {
  if (values.length < 3) return Number.NaN;
  return median(values.slice(1).map((value, i) => Math.abs(value - values[i]!))) / median(values);
}

/** The value that most others lie within `near` of, the first of equals: how many those are, itself among them, and their middle. NaN for none. */
export function mode(
  values: readonly number[],
  near: number,
): { readonly count: number; readonly middle: number } {
  const sorted = new Float64Array(values).sort();
  // As the values rise, so do both ends of what is near them.
  const firstNear = new Uint32Array(sorted.length);
  const countNear = new Uint32Array(sorted.length);
  let first = 0;
  let end = 0;
  for (let i = 0; i < sorted.length; i += 1) {
    while (sorted[i]! - sorted[first]! > near) first += 1;
    while (end < sorted.length && sorted[end]! - sorted[i]! <= near) end += 1;
    firstNear[i] = first;
    countNear[i] = end - first;
  }
  const most = countNear.reduce((a, b) => Math.max(a, b), 0);
  const isMode = new Set(sorted.filter((_, i) => countNear[i] === most));
  const value = values.find((v) => isMode.has(v));
  if (value === undefined) return { count: 0, middle: Number.NaN };
  const from = firstNear[sorted.indexOf(value)]!;
  return { count: most, middle: median(sorted.subarray(from, from + most)) };
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
