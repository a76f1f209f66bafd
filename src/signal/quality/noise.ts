import { quantileOfEvery } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { finiteRuns, type Run } from '../filter/runs.js';
import { bandPass } from '../filter/zero-phase.js';
import { usualQrsLevel } from './qrs-level.js';
import type { Blemish } from './span.js';

/** Each stretch this long is judged on its own, a quarter of it after the last; in s. */
const judged = 1;
/**
 * Between beats the steepness falls far below that of the QRS. Its lowest fifth stays near 0.3 of
 * the largest value in some seconds of pure Gaussian noise, and below 0.2 where beats stand out
 * clearly enough to be counted. Beside a noisy stretch less is enough.
 */
const restless = { alone: 0.24, besideNoise: 0.18 };
/**
 * Zero crossings a second between 3 and 40 Hz. White noise crosses about 48 times; fibrillation and
 * fast wide-QRS rhythms, which are restless too but must not be hidden, below 25.
 */
const broad = 32;

/**
 * Stretches of broad-band noise about as large as the QRS of this lead. `grid` in mV at
 * `searchRate` with its steepness (`qrsViews`); positions on that grid.
 */
export function noise(grid: Float64Array, steepness: Float64Array): Blemish[] {
  const usual = usualQrsLevel(steepness);
  const size = judged * searchRate;
  const parts: Part[] = [];
  for (const run of finiteRuns(grid)) {
    for (let from = run.from; from < run.to; from += Math.round(size / 4)) {
      const to = Math.min(run.to, from + size);
      const rest = to - from >= size / 4 ? restOf(steepness, from, to, usual) : 0;
      if (rest > restless.besideNoise) parts.push({ from, to, rest });
    }
  }
  if (parts.length === 0) return [];

  const wide = bandPass(grid, searchRate, 3, 40);
  const broadParts = parts.filter(({ from, to }) => crossings(wide, from, to) > broad);
  const sure = broadParts.filter(({ rest }) => rest > restless.alone);
  // Both ascend: whatever ends before one part ends before the next.
  let next = 0;
  const isBesideSure = (part: Run) => {
    while (next < sure.length && sure[next]!.to < part.from) next++;
    return next < sure.length && sure[next]!.from <= part.to;
  };
  return broadParts
    .filter(isBesideSure)
    .map(({ from, to }) => ({ from, to, why: 'noise' as const }));
}

/** A stretch, and its lowest fifth as a share of the usual QRS. */
interface Part extends Run {
  readonly rest: number;
}

/** Of the stretch; 0 where it lies too low to matter. */
function restOf(steepness: Float64Array, from: number, to: number, usual: number): number {
  if (!isRestless(steepness, from, to, restless.besideNoise * usual)) return 0;
  return quantileOfEvery(4, steepness, from, to, 0.2) / usual;
}

/** Whether the lowest fifth may lie over `level`: told by counting, which is sooner done than ranking. */
function isRestless(steepness: Float64Array, from: number, to: number, level: number): boolean {
  let gentle = 0;
  let count = 0;
  for (let i = from; i < to; i += 4) {
    const x = steepness[i]!;
    if (!Number.isFinite(x)) continue;
    count += 1;
    if (x < 0.999 * level) gentle += 1;
  }
  return gentle <= 0.2 * count + 1;
}

/** Zero crossings a second. */
function crossings(samples: Float64Array, from: number, to: number): number {
  let count = 0;
  for (let i = from + 1; i < to; i++) if (samples[i - 1]! < 0 !== samples[i]! < 0) count++;
  return (count * searchRate) / (to - from);
}
