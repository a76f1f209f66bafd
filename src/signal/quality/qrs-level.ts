import { medianOfFinite } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';

/** Long enough to hold a beat at 20 beats/min: 3 s, in grid samples. */
export const levelBlock = 3 * searchRate;
/** Blocks on either side that share in the level: 21 s in all, so that one pause does not lower it. */
const neighbours = 3;
/**
 * The level does not follow the signal below this share of the lead's usual one: in a long
 * standstill P waves or noise must not grow into beats.
 */
const least = 0.25;

/** The largest steepness of each block of 3 s; NaN where less than a third of it can be read. */
function blockPeaks(steepness: Float64Array): Float64Array {
  const peaks = new Float64Array(Math.max(1, Math.ceil(steepness.length / levelBlock)));
  for (let block = 0; block < peaks.length; block++) peaks[block] = peakOf(steepness, block);
  return peaks;
}

function peakOf(steepness: Float64Array, block: number): number {
  const end = Math.min(steepness.length, (block + 1) * levelBlock);
  let finite = 0;
  let peak = 0;
  for (let i = block * levelBlock; i < end; i++) {
    const x = steepness[i]!;
    if (x >= 0) finite++;
    if (x > peak) peak = x;
  }
  return finite >= Math.min(levelBlock, steepness.length) / 3 ? peak : Number.NaN;
}

/** The steepness a QRS of this lead usually reaches, in mV/s; NaN where nothing can be read. */
export function usualQrsLevel(steepness: Float64Array): number {
  return medianOfFinite(blockPeaks(steepness));
}

/**
 * The steepness that a QRS is likely to reach around each grid sample: the middle of the block
 * peaks of 21 s. `steepness` in mV/s at `searchRate`.
 */
export function localQrsLevel(steepness: Float64Array): BlockLevels {
  const peaks = blockPeaks(steepness);
  const floor = least * medianOfFinite(peaks);
  const levels = new Float64Array(peaks.length);
  for (let k = 0; k < levels.length; k++) {
    const local = medianOfFinite(peaks.subarray(Math.max(0, k - neighbours), k + neighbours + 1));
    levels[k] = Math.max(floor, Number.isNaN(local) ? floor : local);
  }
  return new BlockLevels(levels);
}

/** What holds for all grid samples of a block of 3 s. */
export class BlockLevels {
  constructor(private readonly levels: Float64Array) {}

  /** At a grid position. */
  at(position: number): number {
    return this.levels[Math.min(this.levels.length - 1, Math.floor(position / levelBlock))]!;
  }
}
