import { searchRate } from '../filter/qrs-steepness.js';
import type { Candidate } from './taken.js';

/** Two beats are never nearer than this (300 beats/min has 0.2 s); in s. */
const apart = 0.1;

/** A wave nearer than this to where the lead begins or ends is not seen whole; in s. */
const margin = 0.06;

/** Every place that stands out more than all within 0.1 s of it and at least as much as `least`. */
export function candidates(prominence: Float64Array, least: number): Candidate[] {
  const reach = Math.round(apart * searchRate);
  const edge = Math.round(margin * searchRate);
  const found: Candidate[] = [];
  for (let i = 0; i < prominence.length; i++) {
    const x = prominence[i]!;
    if (!(x >= least) || prominence[i - 1]! > x || prominence[i + 1]! > x) continue;
    let isPeak = true;
    for (let j = Math.max(0, i - reach); isPeak && j <= i + reach; j++) {
      // Of two equals the first counts.
      isPeak = !(j < i ? prominence[j]! >= x : prominence[j]! > x);
    }
    const isWhole = prominence[i - edge]! >= 0 && prominence[i + edge]! >= 0;
    if (isPeak) found.push({ position: i, prominence: x, isWhole });
  }
  return found;
}
