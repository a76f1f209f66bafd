import { everyNth, quantile } from '../filter/order-statistics.js';
import { pieces } from '../filter/pieces.js';
import { BlockLevels, levelBlock } from '../quality/qrs-level.js';
import type { SearchLead } from './search-lead.js';

/** The level is constant over this many grid samples, and so is the weight of a lead. */
const block = levelBlock;

/**
 * How much each grid sample stands out as a QRS in all leads together: each lead's steepness as a
 * multiple of its local QRS level (1 = as steep as a usual QRS of that lead), averaged with the
 * leads that stand out more clearly from their own rest weighing more. NaN where no lead can be
 * read.
 */
export function prominence(leads: readonly SearchLead[]): Float64Array {
  const length = Math.max(...leads.map((lead) => lead.grid.length));
  const sum = new Float64Array(length);
  const weights = new Float64Array(length);
  for (const { steepness, level } of leads) {
    const floors = blockFloors(steepness);
    for (let k = 0; k < floors.length; k++) {
      const usual = level.at(k * block);
      addBlock(steepness, k, usual, clarity(usual, floors[k]!), sum, weights);
    }
  }
  for (const [from, to] of pieces(length)) divide(sum, weights, from, to);
  return sum;
}

/** Adds what a block of a lead stands out, with its weight. */
function addBlock(
  steepness: Float64Array,
  k: number,
  usual: number,
  weight: number,
  sum: Float64Array,
  weights: Float64Array,
): void {
  const scale = weight / usual;
  const to = Math.min(steepness.length, (k + 1) * block);
  for (let i = k * block; i < to; i++) {
    const x = steepness[i]! * scale;
    if (Number.isNaN(x)) continue;
    sum[i]! += x;
    weights[i]! += weight;
  }
}

function divide(sums: Float64Array, by: Float64Array, from: number, to: number): void {
  for (let i = from; i < to; i++) sums[i]! /= by[i]!;
}

/** The lowest fifth of the prominence of each 3 s: what stands between the beats. */
export function restlessness(prominences: Float64Array): BlockLevels {
  return new BlockLevels(blockFloors(prominences));
}

/** The square of level over rest, bounded so that no lead silences the others. */
function clarity(usual: number, rest: number): number {
  const ratio = Math.min(20, Math.max(1, usual / rest));
  return Number.isNaN(ratio) ? 1 : ratio * ratio;
}

function blockFloors(values: Float64Array): Float64Array {
  const floors = new Float64Array(Math.ceil(values.length / block));
  for (let k = 0; k < floors.length; k++) {
    const to = Math.min(values.length, (k + 1) * block);
    floors[k] = quantile(everyNth(values, 6, k * block, to), 0.2);
  }
  return floors;
}
