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
  const all = [
    ...own.flatMap((tip, beat) => (tip ? [{ tip, beat }] : [])),
    ...lone.map((tip) => ({ tip, beat: -1 })),
  ].sort((a, b) => a.tip.at - b.tip.at);
  const p: (Mark | null)[] = beats.map(() => null);
  const alone: Mark[] = [];
  for (const sign of [1, -1]) {
    const ofSign = all.filter(({ tip }) => tip.sign === sign);
    const count = Math.ceil(ofSign.length / together);
    for (let k = 0; k < count; k++) {
      const some = ofSign.slice(
        Math.round((k * ofSign.length) / count),
        Math.round(((k + 1) * ofSign.length) / count),
      );
      const edges = edgesOf(
        trace,
        some.map(({ tip }) => tip.at),
        sign,
      );
      if (!edges) continue;
      for (const { tip, beat } of some) {
        const mark = {
          onset: tip.at + edges.onset,
          peak: tip.at + edges.peak,
          end: tip.at + edges.end,
          confidence: pConfidence(tip),
        };
        if (beat < 0) alone.push(mark);
        else
          p[beat] = {
            ...mark,
            end: Math.min(mark.end, ventricles.qrs[beat]?.onset ?? beats[beat]!),
          };
      }
    }
  }
  alone.sort((a, b) => a.peak - b.peak);
  return { p, lone: alone };
}

/** Against the tips; null where the average shows no P. */
function edgesOf(trace: Float64Array, tips: readonly number[], sign: number) {
  const reach = steps(part);
  const { mean, at } = averageOf(trace, tips, reach, reach, () => [0, trace.length - 1]);
  const soft = smooth(mean, 1);
  const shape = mean.map((x, i) => sign * (!Number.isNaN(soft[i]) ? soft[i]! : x));
  let peak = at;
  for (let i = at - steps(0.016); i <= at + steps(0.016); i++)
    if (shape[i]! > shape[peak]!) peak = i;
  if (Number.isNaN(shape[peak])) return null;
  const side = (step: 1 | -1): number => {
    const steep = steepest(shape, peak, peak + step * steps(widest));
    const width = Math.abs(steep - peak);
    const length = Math.min(steps(line.longest), Math.max(steps(line.shortest), beyond * width));
    let far = steep;
    while (Math.abs(far - steep) < length && Number.isFinite(shape[far + step])) far += step;
    return corner(shape, steep, far);
  };
  return { onset: side(-1) - at, peak: peak - at, end: side(1) - at };
}
