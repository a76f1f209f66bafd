/** A wave on one lead, in grid positions (not whole where interpolated). */
export interface Mark {
  readonly onset: number;
  readonly peak: number;
  readonly end: number;
  /** 0 to 1. */
  readonly confidence: number;
}

/** From 0 for a wave that noise hides to 1 for one that stands out of it `sure` times. */
export function confidenceFrom(
  heightOverNoise: number,
  { hidden, sure }: { hidden: number; sure: number },
): number {
  const c = (heightOverNoise - hidden) / (sure - hidden);
  return !Number.isNaN(c) ? Math.min(1, Math.max(0, c)) : 0;
}
