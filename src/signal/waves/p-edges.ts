import { type Atria, pConfidence, type Tip } from './atrial-tip.js';
import { averageOf } from './average.js';
import { corner, steepest } from './corner.js';
import { steps } from './grid.js';
import type { Mark } from './marks.js';
import { smooth } from './smooth.js';
import type { Ventricles } from './ventricles.js';

/** So many neighbouring P waves are averaged to find their edges. */
const together = 16;
/** The part around the tip that is averaged; in s. */
const part = 0.08;
/** No slope of a P lies further from its tip; in s. */
const widest = 0.04;
/** The line for the corner ends so many half-widths beyond the steepest slope. */
const beyond = 5;
const line = { shortest: 0.014, longest: 0.045 };

/**
 * Onset and end of each P from the average of its neighbours of one sign, laid over each other by
 * their tips. `trace` is the atrial trace in mV on the grid.
 */
export function pEdges(
  trace: Float64Array,
  beats: readonly number[],
  ventricles: Ventricles,
  own: readonly (Tip | null)[],
  lone: readonly Tip[],
): Atria {
  const all = tipsOf(own, lone);
  const p = new Array<Mark | null>(beats.length).fill(null);
  const alone: Mark[] = [];
  for (const sign of [1, -1]) {
    const ofSign = all.filter(sign > 0 ? isUpright : isInverted);
    const count = Math.ceil(ofSign.length / together);
    for (let k = 0; k < count; k++) {
      const some = ofSign.slice(
        Math.round((k * ofSign.length) / count),
        Math.round(((k + 1) * ofSign.length) / count),
      );
      const edges = edgesOf(trace, some.map(placeOf), sign);
      if (edges) mark(some, edges, beats, ventricles, p, alone);
    }
  }
  alone.sort(byPeak);
  return { p, lone: alone };
}

/** A tip with the place of its beat; -1 for a lone one. */
interface OwnedTip {
  readonly tip: Tip;
  readonly beat: number;
}

const isUpright = ({ tip }: OwnedTip): boolean => tip.sign === 1;
const isInverted = ({ tip }: OwnedTip): boolean => tip.sign === -1;
const placeOf = ({ tip }: OwnedTip): number => tip.at;
const byPlace = (a: OwnedTip, b: OwnedTip): number => a.tip.at - b.tip.at;
const byPeak = (a: Mark, b: Mark): number => a.peak - b.peak;

function tipsOf(own: readonly (Tip | null)[], lone: readonly Tip[]): OwnedTip[] {
  const all: OwnedTip[] = [];
  for (let beat = 0; beat < own.length; beat++) {
    const tip = own[beat];
    if (tip) all.push({ tip, beat });
  }
  for (const tip of lone) all.push({ tip, beat: -1 });
  return all.sort(byPlace);
}

function mark(
  some: readonly OwnedTip[],
  edges: { readonly onset: number; readonly peak: number; readonly end: number },
  beats: readonly number[],
  { qrs }: Ventricles,
  p: (Mark | null)[],
  alone: Mark[],
): void {
  for (const { tip, beat } of some) {
    const end = tip.at + edges.end;
    const found: Mark = {
      onset: tip.at + edges.onset,
      peak: tip.at + edges.peak,
      end: beat < 0 ? end : Math.min(end, qrs[beat]?.onset ?? beats[beat]!),
      confidence: pConfidence(tip),
    };
    if (beat < 0) alone.push(found);
    else p[beat] = found;
  }
}

/** Against the tips; null where the average shows no P. */
function edgesOf(trace: Float64Array, tips: readonly number[], sign: number) {
  const reach = steps(part);
  const { mean, at } = averageOf(trace, tips, reach, reach);
  const shape = smooth(mean, 1);
  for (let i = 0; i < shape.length; i++) {
    shape[i] = sign * (Number.isNaN(shape[i]) ? mean[i]! : shape[i]!);
  }
  let peak = at;
  for (let i = at - steps(0.016); i <= at + steps(0.016); i++)
    if (shape[i]! > shape[peak]!) peak = i;
  if (Number.isNaN(shape[peak])) return null;
  return {
    onset: footOf(shape, peak, -1) - at,
    peak: peak - at,
    end: footOf(shape, peak, 1) - at,
  };
}

/** Another tip of the same P is no lower than this share of its highest, and no farther from that; in s. */
const another = { share: 0.6, within: 0.06 };

/** The last tip of a P to one side of its peak. */
function lastTip(shape: Float64Array, peak: number, step: 1 | -1): number {
  let last = peak;
  for (let i = peak + step; Math.abs(i - peak) <= steps(another.within); i += step) {
    const here = shape[i]!;
    if (here >= another.share * shape[peak]! && here > shape[i - 1]! && here >= shape[i + 1]!)
      last = i;
  }
  return last;
}

/** The corner at the foot of the slope to one side of the peak, behind the last tip. */
function footOf(shape: Float64Array, highest: number, step: 1 | -1): number {
  const peak = lastTip(shape, highest, step);
  const steep = steepest(shape, peak, peak + step * steps(widest));
  const width = Math.abs(steep - peak);
  const length = Math.min(steps(line.longest), Math.max(steps(line.shortest), beyond * width));
  let far = steep;
  while (Math.abs(far - steep) < length && Number.isFinite(shape[far + step])) far += step;
  return corner(shape, steep, far);
}
