import { medianOfEvery, medianOfFinite } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';
import type { SearchLead } from './search-lead.js';

/** The QRS reaches no further than this from the place that stands out most; in s. */
const reach = 0.08;
/** R lies within this of where it does in other beats; 12 ms in grid samples. */
const tipWidth = Math.round(0.012 * searchRate);
/** The signal over this time to either side has its middle value near the baseline; in s. */
const surroundings = 0.2;
/** A deflection against the lead's usual direction must be this much larger to be taken as the R. */
const contrary = 1.5;

/** The extreme values of one QRS above and below the baseline of the lead as recorded. */
export interface Deflections {
  readonly up: { readonly time: number; readonly height: number };
  readonly down: { readonly time: number; readonly height: number };
}

/**
 * The highest and the lowest point of the recorded (unfiltered) lead around a grid position, in s
 * and mV from the baseline; null where the lead cannot be read there. They are looked for at least
 * as far as `away` grid samples from it.
 */
export function deflections(lead: SearchLead, position: number, away: number): Deflections | null {
  const { grid, samples, samplingRate } = lead;
  const around = Math.round(surroundings * searchRate);
  const from = Math.max(0, position - around);
  const baseline = medianOfEvery(4, grid, from, Math.min(grid.length, position + around + 1));
  const steep = extent(lead, position, away);
  let high = -1;
  let low = -1;
  const last = Math.min(samples.length - 1, Math.floor((steep.to * samplingRate) / searchRate));
  for (let i = Math.max(0, Math.ceil((steep.from * samplingRate) / searchRate)); i <= last; i++) {
    if (!Number.isFinite(samples[i])) continue;
    if (high < 0 || samples[i]! > samples[high]!) high = i;
    if (low < 0 || samples[i]! < samples[low]!) low = i;
  }
  if (high < 0) return null;
  return {
    up: { time: tip(samples, high) / samplingRate, height: samples[high]! - baseline },
    down: { time: tip(samples, low) / samplingRate, height: baseline - samples[low]! },
  };
}

/** Whether the QRS of these beats mostly points up. */
export function pointsUp(beats: readonly (Deflections | null)[]): boolean {
  return medianOfFinite(beats.map(heightUp)) >= medianOfFinite(beats.map(heightDown));
}

const heightUp = (beat: Deflections | null): number => beat?.up.height ?? Number.NaN;
const heightDown = (beat: Deflections | null): number => beat?.down.height ?? Number.NaN;

/**
 * When the R is: the tip in the lead's usual direction, so that a QRS with R and S alike does not
 * jump between them from beat to beat, unless the other way is clearly the larger. In s.
 */
export function rTime({ up, down }: Deflections, usuallyUp: boolean): number {
  const [usual, other] = usuallyUp ? [up, down] : [down, up];
  return other.height > contrary * usual.height ? other.time : usual.time;
}

/**
 * Where the lead stays at least half as steep as at the position, at most `reach` to either side, and on as far as `away`
 * with the width of a tip.
 */
function extent(
  { steepness }: SearchLead,
  position: number,
  away: number,
): { from: number; to: number } {
  const most = Math.round(reach * searchRate);
  const enough = steepness[position]! / 2;
  let from = position;
  let to = position;
  while (position - from < most && steepness[from - 1]! >= enough) from--;
  while (to - position < most && steepness[to + 1]! >= enough) to++;
  return {
    from: away < 0 ? Math.min(from, position + away - tipWidth) : from,
    to: away > 0 ? Math.max(to, position + away + tipWidth) : to,
  };
}

/** The middle of a flat tip; otherwise the top of the parabola through a tip and its neighbours. */
function tip(samples: Float64Array, at: number): number {
  let end = at;
  while (samples[end + 1] === samples[at]) end++;
  if (end > at) return (at + end) / 2;
  const before = samples[at - 1]! - samples[at]!;
  const after = samples[at + 1]! - samples[at]!;
  // At the rim of the search the extreme value may lie on a slope, which has no top.
  return before * after > 0 ? at + (before - after) / (2 * (before + after)) : at;
}
