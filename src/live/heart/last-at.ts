/** Place of the last item that is not after a time, in a list ascending by `time`; -1 where all are after it. */
export function lastAtOrBefore<T>(
  items: readonly T[],
  time: number,
  timeOf: (item: T) => number,
): number {
  let low = 0;
  let high = items.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeOf(items[middle] as T) <= time) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
