/** The value below which `share` (0-1) of the finite values lie (nearest rank); NaN where there is none. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const finite = roomFor(values.length);
  const n = copyFinite(values, finite);
  return n === 0 ? Number.NaN : nthSmallest(finite, Math.min(n - 1, Math.floor(share * n)), n);
}

/** The middle value of the finite ones (the mean of the two middle ones); NaN where there is none. */
export function median(values: ArrayLike<number>): number {
  const finite = roomFor(values.length);
  const n = copyFinite(values, finite);
  if (n === 0) return Number.NaN;
  const upper = nthSmallest(finite, n >> 1, n);
  return n % 2 === 1 ? upper : (largestOf(finite, n >> 1) + upper) / 2;
}

/** Every `step`-th of the values from `from` (included) to `to` (excluded): enough to rank by. */
export function everyNth(
  values: Float64Array,
  step: number,
  from = 0,
  to = values.length,
): Float64Array {
  const out = new Float64Array(Math.max(0, Math.ceil((to - from) / step)));
  for (let k = 0; k < out.length; k++) out[k] = values[from + k * step]!;
  return out;
}

/**
 * The `rank`-th smallest of the first `count` numbers (no NaN), counted from 0, found without sorting (Hoare 1961, Algorithm 65: FIND):
 * time in proportion to the number of values. Rearranges them: before the place `rank` lies nothing
 * larger, behind it nothing smaller.
 */
export function nthSmallest(values: Float64Array, rank: number, count = values.length): number {
  let low = 0;
  let high = count - 1;
  for (;;) {
    const pivot = values[rank]!;
    if (low >= high) return pivot;
    let i = low;
    let j = high;
    while (i <= j) {
      while (values[i]! < pivot) i++;
      while (values[j]! > pivot) j--;
      if (i > j) break;
      const kept = values[i]!;
      values[i++] = values[j]!;
      values[j--] = kept;
    }
    if (j < rank) low = i;
    if (rank < i) high = j;
  }
}

/** The largest of the first `count` values. */
function largestOf(values: Float64Array, count: number): number {
  let most = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < count; i++) if (values[i]! > most) most = values[i]!;
  return most;
}

/** Ranking a few values is asked for often: they are laid here rather than into an array of their own. */
const few = new Float64Array(256);

/** An array of so many values and more, which may be rearranged until the next call. */
const roomFor = (count: number): Float64Array =>
  count <= few.length ? few : new Float64Array(count);

/** How many there are. Arrays of either kind are read by a loop of their own, which knows how they lie in memory. */
function copyFinite(values: ArrayLike<number>, out: Float64Array): number {
  return values instanceof Float64Array ? copyOfTyped(values, out) : copyOfNumbers(values, out);
}

function copyOfTyped(values: Float64Array, out: Float64Array): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const x = values[i]!;
    if (Number.isFinite(x)) out[count++] = x;
  }
  return count;
}

function copyOfNumbers(values: ArrayLike<number>, out: Float64Array): number {
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    const x = values[i]!;
    if (Number.isFinite(x)) out[count++] = x;
  }
  return count;
}
