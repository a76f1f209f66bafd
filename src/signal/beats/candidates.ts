import { pieces } from '../filter/pieces.js';
import { searchRate } from '../filter/qrs-steepness.js';
import type { Candidate } from './taken.js';

/** Two beats are never nearer than this (300 beats/min has 0.2 s); in s. */
const apart = 0.1;

/** A wave nearer than this to where the lead begins or ends is not seen whole; in s. */
const margin = 0.06;

/** Every place that stands out more than all within 0.1 s of it and at least as much as `least`. */
export function candidates(prominence: Float64Array, least: number): Candidate[] {
  const found: Candidate[] = [];
  for (const [from, to] of pieces(prominence.length)) addFrom(prominence, from, to, least, found);
  return found;
}

const reach = Math.round(apart * searchRate);
const edge = Math.round(margin * searchRate);

function addFrom(
  prominence: Float64Array,
  from: number,
  to: number,
  least: number,
  found: Candidate[],
): void {
  const last = prominence.length - 1;
  let before = from > 0 ? prominence[from - 1]! : Number.NaN;
  let next = prominence[from]!;
  for (let i = from; i < to; i++) {
    const x = next;
    const isUnder = before > x;
    before = x;
    next = i < last ? prominence[i + 1]! : Number.NaN;
    if (isUnder || next > x || !(x >= least) || !isHighest(prominence, i)) continue;
    const isWhole =
      i >= edge && i + edge <= last && prominence[i - edge]! >= 0 && prominence[i + edge]! >= 0;
    found.push({ place: found.length, position: i, prominence: x, isWhole });
  }
}

/** Of two equals the first counts. */
function isHighest(prominence: Float64Array, at: number): boolean {
  const x = prominence[at]!;
  const end = Math.min(prominence.length - 1, at + reach);
  for (let i = Math.max(0, at - reach); i < at; i++) if (prominence[i]! >= x) return false;
  for (let i = at + 1; i <= end; i++) if (prominence[i]! > x) return false;
  return true;
}
