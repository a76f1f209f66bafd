import { corner } from './corner.js';
import { steps } from './grid.js';
import { restAfterP } from './parted-p.js';

/** No QRS reaches further from its R peak, before and after; in s. */
const reach = { before: 0.09, after: 0.13 };
/**
 * Bends are measured over this much to either side: QRS waves bend sharply, P and T gently. The
 * shortest at which the QRS stands clear of noise shows the smallest waves; in s.
 */
const bendsOver = [0.004, 0.008, 0.016];
/** Clear: so many times the noise. */
const clear = 9;
/** A bend counts as QRS from this share of the sharpest one on. */
const share = 0.04;
/** Within a QRS the slope rests no longer than this; in s. */
const rest = 0.012;
/** A slope this steep, as a share of the steepest, is QRS even where it runs straight. */
const straight = 0.25;
/** The line for the corner ends this many half-widths of the outermost wave beyond its slope. */
const beyond = 5;
const line = { shortest: 0.014, longest: 0.06 };

/** The outer slope of a small last wave lies so near to its tip, and is over so soon after; in s. */
const short = { slope: 0.01, over: 0.012, share: 0.05 };

/** Positions in the average. */
export interface Edges {
  readonly onset: number;
  readonly end: number;
}

/**
 * Where the QRS of an average beat begins and ends, or null where no QRS stands out. From its
 * sharpest bend it is followed outwards as long as the trace keeps bending sharply (T bends gently,
 * and P is parted from it); the edge is the corner beyond the outermost slope. `mean` in mV on the
 * grid, R at `at`, `noise` its standard error.
 */
export function qrsEdges(mean: Float64Array, at: number, noise: number): Edges | null {
  const seen = bendsOver.map((over) => new Bends(mean, at, steps(over)));
  const bends = seen.find(({ sharpest }) => sharpest >= clear * noise) ?? seen[seen.length - 1]!;
  const { over, top, sharpest } = bends;
  const from = Math.max(over, at - steps(reach.before));
  const to = Math.min(mean.length - 1 - over, at + steps(reach.after));
  const threshold = Math.max(share * sharpest, 3 * noise);
  if (!(sharpest > 2 * threshold)) return null;
  let steepest = 0;
  for (let i = top - steps(0.03); i <= top + steps(0.03); i++) {
    const slope = Math.abs(slopeAt(mean, i));
    if (slope > steepest) steepest = slope;
  }
  const first = bends.follow(-1, from, threshold, straight * steepest);
  const last = bends.follow(1, to, threshold, straight * steepest);
  const onset = pastShortWaves(mean, edge(mean, bends, first, -1), -1, steepest, noise);
  const resting = restAfterP(mean, onset, at, steepest, noise);
  return {
    onset: resting === onset ? onset : onsetAfter(mean, resting, at, steepest),
    end: pastShortWaves(mean, edge(mean, bends, last, 1), 1, steepest, noise),
  };
}

const slopeAt = (mean: Float64Array, i: number): number => mean[i + 1]! - mean[i - 1]!;

/** A slope is the first of a QRS from this share of the steepest on. */
const firstSlope = 0.15;

/** Where the QRS begins that follows the rest at `resting`. */
function onsetAfter(mean: Float64Array, resting: number, at: number, most: number): number {
  let steep = resting;
  while (steep < at && Math.abs(slopeAt(mean, steep)) < firstSlope * most) steep++;
  return corner(mean, steep, resting);
}

/** How sharply the average bends, measured over so many samples to either side. */
class Bends {
  /** Where it bends most near R, and how much. */
  readonly top: number;
  readonly sharpest: number;

  constructor(
    private readonly mean: Float64Array,
    at: number,
    readonly over: number,
  ) {
    let top = at;
    for (let i = at - steps(0.04); i <= at + steps(0.04); i++) {
      if (Math.abs(this.at(i)) > Math.abs(this.at(top))) top = i;
    }
    this.top = top;
    this.sharpest = Math.abs(this.at(top));
  }

  at(i: number): number {
    const { mean, over } = this;
    return mean[i]! - 0.5 * (mean[i - over]! + mean[i + over]!);
  }

  /** The last sharp bend on the way from the sharpest to `limit`. */
  follow(step: 1 | -1, limit: number, threshold: number, steep: number): number {
    let last = this.top;
    let active = this.top;
    for (
      let i = this.top;
      step * (limit - i) >= 0 && step * (i - active) <= steps(rest);
      i += step
    ) {
      if (Math.abs(this.at(i)) >= threshold) last = i;
      // The long straight slope of a wide QRS bends nowhere, and is no end of it.
      if (last === i || Math.abs(slopeAt(this.mean, i)) >= steep) active = i;
    }
    return last;
  }
}

/** The corner at the foot of the outermost slope; `outermost` is the last sharp bend. */
function edge(mean: Float64Array, bends: Bends, outermost: number, step: 1 | -1): number {
  // Inwards to where the bend turns: there the slope is steepest, however the trace is tilted.
  let steep = outermost;
  while (step * (steep - bends.top) > 0 && bends.at(steep) * bends.at(outermost) > 0) steep -= step;
  const slope = slopeAt(mean, steep);
  let tip = steep;
  while (Math.abs(tip - steep) < steps(0.03) && slopeAt(mean, tip) * slope > 0) tip -= step;
  return foot(mean, steep, Math.abs(steep - tip), step);
}

/** The corner beyond a slope of a wave that is `width` from its tip to its steepest part. */
function foot(mean: Float64Array, steep: number, width: number, step: 1 | -1): number {
  const length = Math.min(steps(line.longest), Math.max(steps(line.shortest), beyond * width));
  let far = steep;
  while (Math.abs(far - steep) < length && Number.isFinite(mean[far + step])) far += step;
  return corner(mean, steep, far);
}

/**
 * Where the edge found is the tip of a small Q or S, whose foot is lost in noise: past it. Such a wave
 * is over within 20 ms, which tells it from the beginning of a T.
 */
function pastShortWaves(
  mean: Float64Array,
  edgeFound: number,
  step: 1 | -1,
  most: number,
  noise: number,
): number {
  let at = edgeFound;
  for (let turn = 0; turn < 2; turn++) {
    let steep = at;
    for (let i = at; Math.abs(i - at) <= steps(short.slope); i += step) {
      if (Math.abs(slopeAt(mean, i)) > Math.abs(slopeAt(mean, steep))) steep = i;
    }
    const slope = slopeAt(mean, steep);
    const later = slopeAt(mean, steep + step * steps(short.over)) / slope;
    const isWave = Math.abs(slope) > Math.max(short.share * most, 2.5 * noise) && later < 0.4;
    if (!isWave || steep === at) break;
    const next = foot(mean, steep, Math.abs(steep - at), step);
    if (step * (next - at) <= 0) break;
    at = next;
  }
  return at;
}
