/** How many of the items, which ascend, come before the first for which `isReached` holds. */
export function countBefore<T>(items: readonly T[], isReached: (item: T) => boolean): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isReached(items[middle]!)) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The items at `from` (included) to `to` (excluded); `at` ascends over them. */
export function stretchOf<T>(
  items: readonly T[],
  at: (item: T) => number,
  from: number,
  to: number,
): T[] {
  const first = countBefore(items, (item) => at(item) >= from);
  return items.slice(
    first,
    countBefore(items, (item) => at(item) >= to),
  );
}
