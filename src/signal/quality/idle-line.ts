import { searchRate } from '../filter/qrs-steepness.js';
import type { Run } from '../filter/runs.js';
import { bandPass } from '../filter/zero-phase.js';
import { usualQrsLevel } from './qrs-level.js';
import type { Blemish } from './span.js';

/**
 * The hiss of electrodes and recorder (to 0.02 mV, root mean square) stays under this, the smallest
 * P wave over it; mV/s in the band of the QRS. Own choice, by trial on generated strips: not a
 * clinical number.
 */
const idle = 1.5;
/** Fibrillation is gentle but not small: nor may the line move by more than this, mV (root mean square of a second). Likewise. */
const still = 0.03;
/**
 * The longest pause that is left to a heart between its beats, and where most of the lead shows none: the usual figure
 * for asystole; in s. From memory, unverified.
 */
const longest = { amongBeats: 8, withoutBeats: 3 };

/**
 * Stretches with nothing but hiss: from a lead that came off or a heart at rest. `grid` in mV at
 * `searchRate` with its steepness (`qrsViews`); positions on that grid.
 */
export function idleLine(grid: Float64Array, steepness: Float64Array): Blemish[] {
  const quiet = (values: Float64Array, limit: number, within: Run, pause: number) => {
    const least = Math.min(pause * searchRate, grid.length);
    return quietRuns(values, steepness, { limit, within, least });
  };
  const whole = { from: 0, to: grid.length };
  const rests = quiet(steepness, idle, whole, longest.withoutBeats);
  if (rests.length === 0) return [];
  // Jolts of the leads interrupt a line at rest, but nothing of the height of a QRS comes back there.
  const hasBeats = !(usualQrsLevel(steepness) < idle);
  const pause = hasBeats ? longest.amongBeats : longest.withoutBeats;
  const gentle = rests.filter(
    ({ from, to }) => to - from >= Math.min(pause * searchRate, grid.length),
  );
  if (gentle.length === 0) return [];
  const moves = movement(bandPass(grid, searchRate, 3, 40));
  return gentle.flatMap((run) =>
    quiet(moves, still, run, pause).map(({ from, to }) => ({
      from,
      to,
      why: 'flat line' as const,
    })),
  );
}

/** Root mean square over the second around each sample. */
function movement(waves: Float64Array): Float64Array {
  const half = searchRate >> 1;
  const sums = new Float64Array(waves.length + 1);
  for (let i = 0; i < waves.length; i++) {
    sums[i + 1] = sums[i]! + (waves[i]! ** 2 || 0);
  }
  const out = new Float64Array(waves.length);
  for (let i = 0; i < out.length; i++) {
    const from = Math.max(0, i - half);
    const to = Math.min(out.length, i + half);
    out[i] = Math.sqrt((sums[to]! - sums[from]!) / (to - from));
  }
  return out;
}

/**
 * Runs of values under a limit, at least `least` of which can be seen. What cannot be, as under electrosurgery, ends no run
 * and does not count.
 */
function quietRuns(
  values: Float64Array,
  steepness: Float64Array,
  { limit, within, least }: { limit: number; within: Run; least: number },
): Run[] {
  const out: Run[] = [];
  let from = within.from;
  while (from < within.to) {
    const to = endOfQuiet(values, steepness, limit, from, within.to);
    if (to - from >= least && seenBetween(steepness, from, to) >= least) out.push({ from, to });
    from = to + 1;
  }
  return out;
}

/** The first place from `from` to `end` at which a value is seen that is not under the limit; `end` where there is none. */
function endOfQuiet(
  values: Float64Array,
  steepness: Float64Array,
  limit: number,
  from: number,
  end: number,
): number {
  let i = from;
  while (i < end && (values[i]! < limit || Number.isNaN(steepness[i]))) i++;
  return i;
}

function seenBetween(steepness: Float64Array, from: number, to: number): number {
  let seen = 0;
  for (let i = from; i < to; i++) if (!Number.isNaN(steepness[i])) seen++;
  return seen;
}
