import { quantileOfEvery } from '../filter/order-statistics.js';
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
  const views = leads.map((lead) => new View(lead));
  const out = new Float64Array(length);
  const [only, ...others] = views;
  if (only && others.length === 0) {
    for (let k = 0; k * block < length; k++) weighAlone(only, k, out);
    return out;
  }
  for (let k = 0; k * block < length; k++) combine(views, k, out);
  return out;
}

/** One lead, block by block. */
class View {
  readonly steepness: Float64Array;
  readonly weights: Float64Array;
  /** Weight over usual steepness. */
  readonly scales: Float64Array;

  constructor({ steepness, level }: SearchLead) {
    this.steepness = steepness;
    this.weights = blockFloors(steepness);
    this.scales = new Float64Array(this.weights.length);
    for (let k = 0; k < this.weights.length; k++) {
      const usual = level.at(k * block);
      const weight = clarity(usual, this.weights[k]!);
      this.weights[k] = weight;
      this.scales[k] = weight / usual;
    }
  }
}

/** What `combine` gives for a single lead. */
function weighAlone({ steepness, scales, weights }: View, k: number, out: Float64Array): void {
  const scale = scales[k]!;
  const weight = weights[k]!;
  const end = Math.min(out.length, (k + 1) * block);
  for (let i = k * block; i < end; i++) out[i] = (steepness[i]! * scale) / weight;
}

/** What the leads say of one block. */
function combine(views: readonly View[], k: number, out: Float64Array): void {
  const sums = out.subarray(k * block, (k + 1) * block);
  const weights = new Float64Array(sums.length);
  for (const view of views) {
    const steepness = view.steepness.subarray(k * block, (k + 1) * block);
    addScaled(steepness, view.scales[k]!, view.weights[k]!, sums, weights);
  }
  for (let i = 0; i < sums.length; i++) sums[i]! /= weights[i]!;
}

function addScaled(
  steepness: Float64Array,
  scale: number,
  weight: number,
  sums: Float64Array,
  weights: Float64Array,
): void {
  for (let i = 0; i < steepness.length; i++) {
    const x = steepness[i]! * scale;
    if (Number.isNaN(x)) continue;
    sums[i]! += x;
    weights[i]! += weight;
  }
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
    floors[k] = quantileOfEvery(6, values, k * block, to, 0.2);
  }
  return floors;
}
