import { searchRate } from '../filter/qrs-steepness.js';
import type { Run } from '../filter/runs.js';
import { bandPass } from '../filter/zero-phase.js';
import type { Blemish } from './span.js';

/**
 * The hiss of electrodes and recorder (to 0.02 mV, root mean square) stays under this, the smallest
 * P wave over it; mV/s in the band of the QRS. Own choice, by trial on generated strips: not a
 * clinical number.
 */
const idle = 1.5;
/** Fibrillation is gentle but not small: nor may the line move by more than this, mV (root mean square of a second). Likewise. */
const still = 0.03;
/** The longest pause that is left to a heart between its beats; in s. Own choice, not a clinical number. */
const longest = 8;

/**
 * Stretches with nothing but hiss: from a lead that came off or a heart at rest. `grid` in mV at
 * `searchRate` with its `qrsSteepness`; positions on that grid.
 */
export function idleLine(grid: Float64Array, steepness: Float64Array): Blemish[] {
  const least = Math.min(longest * searchRate, grid.length);
  // What cannot be seen, as under electrosurgery, ends no stretch and does not count.
  const isSeen = (i: number): boolean => !Number.isNaN(steepness[i]!);
  const gentle = runsWhere((i) => !(steepness[i]! >= idle), isSeen, grid.length, least);
  if (gentle.length === 0) return [];
  const waves = bandPass(grid, searchRate, 3, 40);
  const moves = movement(waves);
  return gentle.flatMap(({ from, to }) =>
    runsWhere(
      (i) => moves[from + i]! < still || !isSeen(from + i),
      (i) => isSeen(from + i),
      to - from,
      least,
    ).map((run) => ({
      from: from + run.from,
      to: from + run.to,
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
  return waves.map((_, i) => {
    const from = Math.max(0, i - half);
    const to = Math.min(waves.length, i + half);
    return Math.sqrt((sums[to]! - sums[from]!) / (to - from));
  });
}

/** Runs of positions that pass, at least `least` of which count. */
function runsWhere(
  passes: (i: number) => boolean,
  counts: (i: number) => boolean,
  length: number,
  least: number,
): Run[] {
  const out: Run[] = [];
  let from = 0;
  let counted = 0;
  for (let i = 0; i <= length; i++) {
    if (i < length && passes(i)) {
      if (counts(i)) counted++;
      continue;
    }
    if (i > from && counted >= least) out.push({ from, to: i });
    from = i + 1;
    counted = 0;
  }
  return out;
}
