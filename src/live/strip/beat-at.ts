/** Index of the beat whose R is closest to a moment; null where there is no beat. Beats in order of time. */
export function nearestBeat(
  beats: readonly { readonly time: number }[],
  second: number,
): number | null {
  if (beats.length === 0) return null;
  const after = beats.findIndex(({ time }) => time >= second);
  if (after < 0) return beats.length - 1;
  const before = beats[after - 1];
  const next = beats[after];
  return before && next && second - before.time < next.time - second ? after - 1 : after;
}

/** Index of the beat that has begun by a moment, with its P where that was marked; null before the first. */
export function beatUnder(
  beats: readonly {
    readonly time: number;
    readonly p: { readonly onset: number } | null;
    readonly qrs: { readonly onset: number } | null;
  }[],
  second: number,
): number | null {
  const index = beats.findLastIndex(({ time, p, qrs }) => ((p ?? qrs)?.onset ?? time) <= second);
  return index < 0 ? null : index;
}
