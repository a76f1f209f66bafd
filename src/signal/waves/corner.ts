/**
 * Where a wave meets the line beyond it: of the samples between `from`, on the steepest part of the
 * wave's outer slope, and `to`, beyond the wave, the one furthest from the straight line that joins
 * the two. No threshold, and a tilt of the whole trace changes nothing. Kin to the trapezium of
 * Vázquez-Seisdedos et al. 2011 (BioMedical Engineering OnLine 10:77), which looks for the largest
 * area where this looks for the largest distance. `from` may lie before or after `to`.
 */
export function corner(samples: ArrayLike<number>, from: number, to: number): number {
  return cornerTowards(samples, from, to, samples[to]!, to);
}

/** The same where the trace is cut short at `until`: beyond, it is known to rest at `level` by `to`. */
export function cornerTowards(
  samples: ArrayLike<number>,
  from: number,
  to: number,
  level: number,
  until: number,
): number {
  const step = to > from ? 1 : -1;
  const slope = (level - samples[from]!) / (to - from);
  // On its steepest part the wave runs faster than the line, and leaves it to that side.
  const ahead = from + 2 * step;
  const side = samples[ahead]! - samples[from]! < slope * (ahead - from) ? -1 : 1;
  let best = until;
  let furthest = 0;
  for (let i = from; i !== until; i += step) {
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
