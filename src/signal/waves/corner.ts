/**
 * Where a wave meets the line beyond it: of the samples between `from`, on the steepest part of the
 * wave's outer slope, and `to`, beyond the wave, the one furthest from the straight line that joins
 * the two. No threshold, and a tilt of the whole trace changes nothing. Kin to the trapezium of
 * Vázquez-Seisdedos et al. 2011 (BioMedical Engineering OnLine 10:77), which looks for the largest
 * area where this looks for the largest distance. `from` may lie before or after `to`.
 */
export function corner(samples: ArrayLike<number>, from: number, to: number): number {
  const step = to > from ? 1 : -1;
  const slope = (samples[to]! - samples[from]!) / (to - from);
  // The wave falls off faster than the line at first: it lies on the far side of it from its peak.
  const side = samples[from]! > samples[to]! ? -1 : 1;
  let best = to;
  let furthest = 0;
  for (let i = from; i !== to; i += step) {
    const away = side * (samples[i]! - samples[from]! - slope * (i - from));
    if (away > furthest) {
      furthest = away;
      best = i;
    }
  }
  return best;
}

/** The position of the steepest sample between `from` and `to`; both belong to it. */
export function steepest(samples: ArrayLike<number>, from: number, to: number): number {
  const [low, high] = from < to ? [from, to] : [to, from];
  let best = from;
  let most = -1;
  for (let i = Math.max(1, low); i <= high && i + 1 < samples.length; i++) {
    const slope = Math.abs(samples[i + 1]! - samples[i - 1]!);
    if (slope > most) {
      most = slope;
      best = i;
    }
  }
  return best;
}
