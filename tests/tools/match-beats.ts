/** The outcome of a beat-by-beat comparison; times in s. */
export interface BeatMatch {
  /** Pairs of reference and found beat within the window. */
  readonly pairs: readonly { readonly reference: number; readonly found: number }[];
  /** Reference beats that were not found. */
  readonly missed: readonly number[];
  /** Found beats without a reference beat. */
  readonly extra: readonly number[];
  /** TP / (TP + FN). */
  readonly sensitivity: number;
  /** TP / (TP + FP), called +P. */
  readonly predictivity: number;
}

/**
 * Beat-by-beat comparison with a match window of 150 ms after ANSI/AAMI EC57: every beat belongs
 * to at most one pair, and of two found beats that could belong to one reference beat the nearer
 * one does. Both lists ascend, in s.
 */
export function matchBeats(
  reference: readonly number[],
  found: readonly number[],
  window = 0.15,
): BeatMatch {
  const pairs: { reference: number; found: number }[] = [];
  const missed: number[] = [];
  const extra: number[] = [];
  let r = 0;
  let f = 0;
  while (r < reference.length && f < found.length) {
    const a = reference[r]!;
    const b = found[f]!;
    const distance = Math.abs(a - b);
    if (distance > window) {
      if (a < b) missed.push(reference[r++]!);
      else extra.push(found[f++]!);
    } else if (b < a && Math.abs(a - (found[f + 1] ?? Infinity)) < distance) {
      extra.push(found[f++]!);
    } else if (a < b && Math.abs((reference[r + 1] ?? Infinity) - b) < distance) {
      missed.push(reference[r++]!);
    } else {
      pairs.push({ reference: a, found: b });
      r++;
      f++;
    }
  }
  missed.push(...reference.slice(r));
  extra.push(...found.slice(f));
  return {
    pairs,
    missed,
    extra,
    sensitivity: pairs.length / (pairs.length + missed.length),
    predictivity: pairs.length / (pairs.length + extra.length),
  };
}

/** `TP 2272 FP 1 FN 1, sensitivity 99.96 %, +P 99.96 %`. */
export function inWords({ pairs, missed, extra, sensitivity, predictivity }: BeatMatch): string {
  const percent = (share: number) => `${(100 * share).toFixed(2)} %`;
  return (
    `TP ${pairs.length} FP ${extra.length} FN ${missed.length}, ` +
    `sensitivity ${percent(sensitivity)}, +P ${percent(predictivity)}`
  );
}
