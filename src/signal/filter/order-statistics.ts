/** The value below which `share` (0-1) of the finite values lie (nearest rank); NaN where there is none. */
export function quantileOfFinite(values: ArrayLike<number>, share: number): number {
  const finite = roomFor(values.length);
  const n = copyFinite(values, finite);
  return n === 0 ? Number.NaN : nthSmallest(finite, Math.min(n - 1, Math.floor(share * n)), n);
}

/** `quantileOfFinite` of every `step`-th of the values from `from` (included) to `to` (excluded). */
export function quantileOfEvery(
  step: number,
  values: Float64Array,
  from: number,
  to: number,
  share: number,
): number {
  const finite = roomFor(Math.ceil((to - from) / step));
  const n = copyEvery(step, values, from, to, finite);
  return n === 0 ? Number.NaN : nthSmallest(finite, Math.min(n - 1, Math.floor(share * n)), n);
}

/** `medianOfFinite` of every `step`-th of the values from `from` (included) to `to` (excluded). */
export function medianOfEvery(
  step: number,
  values: Float64Array,
  from: number,
  to: number,
): number {
  const finite = roomFor(Math.ceil((to - from) / step));
  return medianOfFirst(finite, copyEvery(step, values, from, to, finite));
}

/** The middle value of the finite ones (the mean of the two middle ones); NaN where there is none. */
export function medianOfFinite(values: ArrayLike<number>): number {
  const finite = roomFor(values.length);
  return medianOfFirst(finite, copyFinite(values, finite));
}

/** The same of the first `count` values, all of them finite, which are rearranged. */
export function medianOfFirst(values: Float64Array, count: number): number {
  if (count === 0) return Number.NaN;
  const upper = nthSmallest(values, count >> 1, count);
  return count % 2 === 1 ? upper : (largestOf(values, count >> 1) + upper) / 2;
}

/** What is ranked by a guess lies between these shares of it. */
const nearby = { from: 0.8, to: 1.25 };

/** `medianOfFirst` of sizes, none of them negative: where the `guess` is near it, only what is near the guess is ranked. */
export function medianNear(guess: number, sizes: Float64Array, count: number): number {
  const near = roomFor(count);
  const low = nearby.from * guess;
  const high = nearby.to * guess;
  let below = 0;
  let within = 0;
  for (let i = 0; i < count; i++) {
    const size = sizes[i]!;
    if (size < low) below++;
    else if (size <= high) near[within++] = size;
  }
  const rank = (count >> 1) - below;
  if (!(rank > 0 && rank < within)) return medianOfFirst(sizes, count);
  const upper = nthSmallest(near, rank, within);
  return count % 2 === 1 ? upper : (largestOf(near, rank) + upper) / 2;
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

function copyEvery(
  step: number,
  values: Float64Array,
  from: number,
  to: number,
  out: Float64Array,
): number {
  let count = 0;
  for (let i = from; i < to; i += step) {
    const x = values[i]!;
    if (Number.isFinite(x)) out[count++] = x;
  }
  return count;
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
