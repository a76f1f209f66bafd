/** A point on the trace: s, and mV where the trace has a sample there. */
export interface Point {
  readonly second: number;
  readonly millivolt: number | null;
}

export interface Measured {
  /** s from the first point to the second, never negative. */
  readonly seconds: number;
  /** What came again after this time would come so many times a minute; null where the points are one. */
  readonly perMinute: number | null;
  /** mV from the earlier point to the later; null where one has no sample. */
  readonly millivolts: number | null;
}

/** What lies between two points, in either order. */
export function measured(one: Point, other: Point): Measured {
  const [first, last] = one.second <= other.second ? [one, other] : [other, one];
  const seconds = last.second - first.second;
  return {
    seconds,
    perMinute: seconds > 0 ? 60 / seconds : null,
    millivolts:
      first.millivolt === null || last.millivolt === null ? null : last.millivolt - first.millivolt,
  };
}
