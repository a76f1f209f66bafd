import { everyNth, quantile } from '../filter/order-statistics.js';
import { levelBlock } from '../quality/qrs-level.js';
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
    const weight = clarity(steepness, level);
    for (let k = 0; k < weight.length; k++) {
      const w = weight[k]!;
      const scale = w / level(k * block);
      const to = Math.min(steepness.length, (k + 1) * block);
      for (let i = k * block; i < to; i++) {
        const x = steepness[i]! * scale;
        if (Number.isNaN(x)) continue;
        sum[i] = sum[i]! + x;
        weights[i] = weights[i]! + w;
      }
    }
  }
  for (let i = 0; i < length; i++) sum[i] = sum[i]! / weights[i]!;
  return sum;
}

/** The lowest fifth of the prominence of each 3 s: what stands between the beats. */
export function restlessness(prominences: Float64Array): (position: number) => number {
  const floors = blockFloors(prominences);
  return (position) => floors[Math.floor(position / block)]!;
}

/** The square of level over rest, block by block, bounded so that no lead silences the others. */
function clarity(steepness: Float64Array, level: (position: number) => number): Float64Array {
  return blockFloors(steepness).map((floor, k) => {
    const ratio = Math.min(20, Math.max(1, level(k * block) / floor));
    return Number.isNaN(ratio) ? 1 : ratio * ratio;
  });
}

function blockFloors(values: Float64Array): Float64Array {
  const floors = new Float64Array(Math.ceil(values.length / block));
  for (let k = 0; k < floors.length; k++) {
    const to = Math.min(values.length, (k + 1) * block);
    floors[k] = quantile(everyNth(values, 6, k * block, to), 0.2);
  }
  return floors;
}
