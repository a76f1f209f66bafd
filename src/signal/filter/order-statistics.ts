/** The value below which `share` (0-1) of the finite values lie (nearest rank); NaN where there is none. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = sortedFinite(values);
  if (sorted.length === 0) return Number.NaN;
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
}

/** The middle value of the finite ones (the mean of the two middle ones); NaN where there is none. */
export function median(values: ArrayLike<number>): number {
  const sorted = sortedFinite(values);
  const n = sorted.length;
  if (n === 0) return Number.NaN;
  return (sorted[(n - 1) >> 1]! + sorted[n >> 1]!) / 2;
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

function sortedFinite(values: ArrayLike<number>): Float64Array {
  const finite = new Float64Array(values.length);
  let count = 0;
  for (let i = 0; i < values.length; i++) {
    if (Number.isFinite(values[i])) finite[count++] = values[i]!;
  }
  return finite.subarray(0, count).sort();
}
