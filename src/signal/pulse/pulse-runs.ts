import { median, unevenness } from '../filter/spread.js';
import type { Upstroke } from './upstrokes.js';

/** Upstrokes that follow one another as those of a heart do. */
export interface PulseRun {
  /** Its first and last upstroke, s. */
  readonly from: number;
  readonly to: number;
  readonly count: number;
  /** Middle time between two, s. */
  readonly interval: number;
  /** Middle lowest and highest value, in the wave's unit. */
  readonly low: number;
  readonly high: number;
}

// The constants of this file are choices of the method, not clinical numbers.

/** Fewer are a jolt. */
const FEWEST = 3;
/** From 333 to 24 beats/min, s. */
const SHORTEST = 0.18;
const LONGEST = 2.5;
/** Height against the middle one of those just before. */
const LEAST_HEIGHT = 0.4;
const MOST_HEIGHT = 2.5;
const JUST_BEFORE = 5;
/** Less even intervals are noise, as `unevenness` counts it; fibrillating atria leave up to about 0.25. */
const UNEVEN = 0.35;

/** Upstrokes that follow one another as the beats of a heart do, run by run, ascending. */
export function pulseRuns(upstrokes: readonly Upstroke[]): PulseRun[] {
  const runs: Upstroke[][] = [];
  for (const next of upstrokes) {
    const run = runs.at(-1);
    if (run && follows(run, next)) run.push(next);
    else runs.push([next]);
  }
  return runs.flatMap((run) => {
    const intervals = run.slice(1).map(({ time }, i) => time - run[i]!.time);
    if (run.length < FEWEST || unevenness(intervals) > UNEVEN) return [];
    const last = run.slice(-JUST_BEFORE);
    return {
      from: run[0]!.time,
      to: run.at(-1)!.time,
      count: run.length,
      interval: median(intervals),
      low: median(last.map(({ low }) => low)),
      high: median(last.map(({ high }) => high)),
    };
  });
}

function follows(run: readonly Upstroke[], next: Upstroke): boolean {
  const interval = next.time - run.at(-1)!.time;
  const usual = median(run.slice(-JUST_BEFORE).map(({ low, high }) => high - low));
  const height = (next.high - next.low) / usual;
  return (
    interval >= SHORTEST && interval <= LONGEST && height >= LEAST_HEIGHT && height <= MOST_HEIGHT
  );
}
