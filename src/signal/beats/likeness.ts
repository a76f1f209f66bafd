import { searchRate } from '../filter/qrs-steepness.js';
import type { SearchLead } from './search-lead.js';

/** Shapes are compared this far to either side; in s. */
const half = Math.round(0.06 * searchRate);
/** A wave may lie this far from where it is expected; 40 ms in grid samples. */
export const play = Math.round(0.04 * searchRate);
/** Share of the 120 ms that must be seen for a comparison. */
const seenAtLeast = 2 / 3;

/**
 * How alike two waves are in shape, -1 to 1: the correlation of their slopes over 120 ms in all
 * leads, each lead as a multiple of its level, the second wave shifted by up to 40 ms to fit best.
 * Slopes rather than heights, because a wide wave and a narrow one then differ most. Also tells
 * how much larger the second is in root mean square slope, and how far it was shifted, in grid samples.
 */
export function likeness(
  leads: readonly SearchLead[],
  one: number,
  other: number,
): { readonly alike: number; readonly larger: number; readonly shift: number } {
  let alike = -1;
  let larger = 0;
  let best = 0;
  const slopes = leads.map(({ shape, level }) => ({
    scale: 1 / level.at(one) ** 2,
    ones: slopesAround(shape, one, half),
    others: slopesAround(shape, other, half + play),
  }));
  for (let shift = -play; shift <= play; shift += 1) {
    let compared = 0;
    let cross = 0;
    let first = 0;
    let second = 0;
    for (const { scale, ones, others } of slopes) {
      for (let k = 0; k < ones.length; k++) {
        const a = ones[k]!;
        const b = others[k + play + shift]!;
        const product = a * b * scale;
        if (Number.isNaN(product)) continue;
        compared++;
        cross += product;
        first += a * a * scale;
        second += b * b * scale;
      }
    }
    if (compared < seenAtLeast * (2 * half + 1)) continue;
    const here = cross / Math.sqrt(first * second);
    if (here > alike) {
      alike = here;
      larger = Math.sqrt(second / first);
      best = shift;
    }
  }
  return { alike, larger, shift: best };
}

/** From each grid sample to the next, within so many of a position; NaN where it cannot be read. */
function slopesAround(shape: Float64Array, position: number, reach: number): Float64Array {
  const out = new Float64Array(2 * reach + 1).fill(Number.NaN);
  const first = position - reach;
  const end = Math.min(out.length, shape.length - first);
  for (let k = Math.max(0, 1 - first); k < end; k++) {
    out[k] = shape[first + k]! - shape[first + k - 1]!;
  }
  return out;
}

/** The steepest slope within 60 ms of a grid position, as a multiple of the leads' levels. */
export function steepest(leads: readonly SearchLead[], position: number): number {
  return overLeads(leads, position, steepestOn);
}

function steepestOn({ shape, level }: SearchLead, position: number): number {
  let most = 0;
  for (let k = -half; k <= half; k++) {
    const slope = Math.abs(shape[position + k]! - shape[position + k - 1]!) * searchRate;
    if (slope > most) most = slope;
  }
  return most / level.at(position);
}

/** The height from trough to peak within 60 ms of a grid position, by the same scale. */
export function tallness(leads: readonly SearchLead[], position: number): number {
  return overLeads(leads, position, tallnessOn);
}

function tallnessOn({ shape, level }: SearchLead, position: number): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let k = -half; k <= half; k++) {
    const x = shape[position + k]!;
    if (x < low) low = x;
    if (x > high) high = x;
  }
  return high > low ? (high - low) / level.at(position) : 0;
}

/** A measure on all leads together, as the length of the way in all of them. */
function overLeads(
  leads: readonly SearchLead[],
  position: number,
  measure: (lead: SearchLead, position: number) => number,
): number {
  if (leads.length === 1) return measure(leads[0]!, position);
  const values: number[] = [];
  for (const lead of leads) values.push(measure(lead, position));
  return Math.hypot(...values);
}
