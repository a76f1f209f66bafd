import { medianOfFirst, quantileOfFinite } from '../filter/order-statistics.js';
import type { Bumps } from './bumps.js';
import { steps } from './grid.js';
import type { Group } from './group.js';
import type { MarkedGroup, Ventricles } from './ventricles.js';

/** The tip of a P that leads to a QRS lies so long before its onset, at most and at least; in s. */
export const tipBeforeQrs = { most: 0.3, least: 0.018 };
/** Nothing is searched sooner after the QRS before; in s. */
const afterQrs = 0.03;
/** No T peaks later than this after its QRS began, in s, or than this share of the time to the next. From memory, unverified. */
const latestT = { after: 0.3, share: 0.65, wideQrs: 0.065 };
/** The mean bump of a group counts if it is this many standard errors high ... */
const sure = 6;
/**
 * ... and this many times the usual spread of a single beat: fibrillation averages out, P does not.
 * It is clear if it is as many times the spread over time: where coarse fibrillation shapes the beats
 * that are taken for one family it does not average out, but is no higher there than at other times.
 */
const overSpread = 2.5;
/** In so many of its beats it must be found, at this share of the mean or more. */
const found = { share: 0.7, height: 0.5 };
/** In fewer beats nothing can be said to recur. */
const recurring = 4;
/** With more noise than this share of the QRS no small wave is told at all. */
export const drowned = 0.2;
/** Beat by beat P may come earlier or later by this; in s. */
const slack = 0.012;
/** Lower than this, in mV, or than this share of its QRS or T, what recurs is a remnant of those. */
const least = 0.01;
const leastShare = 0.03;
/** The tail of a T may reach on so long after the end that was found; in s. */
export const tailOfT = 0.045;
/** What recurs on the T of the beat before is a remnant of that T below this share of it. */
export const leastShareOnT = 0.25;

/** The P that every beat of a group has at about the same place. */
export interface ConductedP {
  /** Tip against the members' positions, in samples. */
  readonly offset: number;
  /** Signed height of the bump, mV. */
  readonly height: number;
  /** Higher by far than what stands in the trace at other times; else it needs others beside it. */
  readonly isClear: boolean;
}

/**
 * How much the bumps before the QRS differ from beat to beat where no P accounts for it: the noise
 * against which a P must stand out. In mV; the spread over time for small groups.
 */
export function spreadOf(group: MarkedGroup, bumps: Bumps): number {
  const { positions, qrs } = group;
  const overTime = bumps.spreadAt(positions[positions.length >> 1]!);
  if (positions.length < 8) return overTime;
  const spreads: number[] = [];
  const values = new Float64Array(positions.length);
  for (let offset = qrs.onset - steps(0.3); offset < qrs.onset - steps(0.02); offset += 6) {
    const count = heightsInto(values, positions, offset, bumps);
    if (count === 0) continue;
    // What lies below the middle and what lies above it may change places: only distances are asked next.
    const middle = medianOfFirst(values, count);
    for (let k = 0; k < count; k++) values[k] = Math.abs(values[k]! - middle);
    spreads.push(medianOfFirst(values, count) / 0.6745);
  }
  return spreads.length === 0 ? overTime : Math.min(overTime, quantileOfFinite(spreads, 0.25));
}

/** The heights that can be read at an offset from each of the positions. -> how many. */
function heightsInto(
  values: Float64Array,
  positions: readonly number[],
  offset: number,
  bumps: Bumps,
): number {
  let count = 0;
  for (let k = 0; k < positions.length; k++) {
    const height = bumps.heightAt(positions[k]! + offset);
    if (!Number.isNaN(height)) values[count++] = height;
  }
  return count;
}

/** The P of the group's average, or null where its beats share none. */
export function conductedP(
  group: MarkedGroup,
  ventricles: Ventricles,
  beats: readonly number[],
  bumps: Bumps,
  spread: number,
): ConductedP | null {
  const { positions, members, qrs } = group;
  if (positions.length < recurring || group.noise > drowned * group.qrsHeight) return null;
  const first = qrs.onset - steps(tipBeforeQrs.most);
  const size = steps(tipBeforeQrs.most - tipBeforeQrs.least) + 1;
  const sums = new Float64Array(size);
  const counts = new Uint16Array(size);
  for (let k = 0; k < positions.length; k++) {
    const from = positions[k]! + first;
    const earliest = earliestTip(members[k]!, ventricles, beats) | 0;
    bumps.addHeights(from, Math.max(0, earliest - from), size, sums, counts);
  }
  let best = -1;
  for (let i = 1; i + 1 < size; i++) {
    if (counts[i]! * 2 < positions.length || counts[i] === 0) continue;
    const mean = Math.abs(sums[i]! / counts[i]!);
    const isTip =
      mean >= Math.abs(sums[i - 1]! / counts[i - 1]!) &&
      mean > Math.abs(sums[i + 1]! / counts[i + 1]!);
    if (isTip && (best < 0 || mean > Math.abs(sums[best]! / counts[best]!))) best = i;
  }
  if (best < 0) return null;
  const height = sums[best]! / counts[best]!;
  const tip = first + best;
  const isOnT = countOnT(group, tip, ventricles) * 2 > positions.length;
  const tShare = isOnT ? leastShareOnT : leastShare;
  const tHeight = Math.abs(group.t?.height ?? 0);
  const floor = Math.max(least, leastShare * group.qrsHeight, tShare * tHeight);
  const overTime = bumps.spreadAt(positions[positions.length >> 1]!);
  const noise = Math.max((sure * spread) / Math.sqrt(counts[best]!), overSpread * spread);
  if (Math.abs(height) < Math.max(floor, noise)) return null;
  return isFound(positions, tip, height, bumps)
    ? { offset: tip, height, isClear: Math.abs(height) >= overSpread * overTime }
    : null;
}

/** How many members have the place of the tip on the T of the beat before. */
function countOnT({ positions, members }: Group, tip: number, ventricles: Ventricles): number {
  let count = 0;
  for (let k = 0; k < positions.length; k++) {
    if (positions[k]! + tip < endOfT(members[k]!, ventricles)) count++;
  }
  return count;
}

/** Whether enough of the beats that can be read there show the P by themselves. */
function isFound(
  positions: readonly number[],
  offset: number,
  height: number,
  bumps: Bumps,
): boolean {
  let seen = 0;
  let clear = 0;
  for (const position of positions) {
    const at = ownTip(position, offset, Math.sign(height), bumps);
    if (at < 0) continue;
    seen++;
    if (bumps.heightAt(at) / height >= found.height && bumps.isWave(at)) clear++;
  }
  return seen > 0 && clear >= found.share * seen;
}

/** Where the beat at `position` has the P of its group; -1 where it cannot be read. */
export function ownTip(position: number, offset: number, sign: number, bumps: Bumps): number {
  const at = position + offset;
  return bumps.highest(at - steps(slack), at + steps(slack), sign);
}

/** When the T of the beat before is over, and its last traces; long ago where it has none. */
function endOfT(member: number, { t }: Ventricles): number {
  const before = t[member - 1];
  return before ? before.end + steps(tailOfT) : Number.NEGATIVE_INFINITY;
}

/**
 * A P of this beat may peak from here on: after the QRS of the beat before and, where no T of that
 * beat is known, after the time of any T: the first wave after a QRS is its T, whatever it looks like.
 */
export function earliestTip(
  member: number,
  { qrs, hasT }: Ventricles,
  beats: readonly number[],
): number {
  if (member === 0) return 0;
  const before = qrs[member - 1];
  if (before && hasT[member - 1]) return before.end + steps(afterQrs);
  const from = before?.onset ?? beats[member - 1]!;
  // After a wide QRS T is late as well.
  if (!before || before.end - before.onset > steps(latestT.wideQrs))
    return from + steps(latestT.after);
  const toNext = (beats[member] ?? Number.POSITIVE_INFINITY) - from;
  return from + Math.round(Math.min(steps(latestT.after), latestT.share * toNext));
}
