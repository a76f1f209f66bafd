import { average, excerptInto, isWhole, valuesBetween } from '../../filter/excerpt.js';
import { median, quantile } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { P_RATE } from './atrial.js';
import { aheadOf, hasP, lengthAfterR } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** An interval is long over this share of those around it, and usual within it and its inverse. */
const LONG = 1.2;
const USUAL = 1.12;
/** Intervals to either side that say what is usual. */
const AROUND = 8;
/** P comes early under this share of the usual interval after the P before; a P on time that is not followed is a block. */
const EARLY = 0.85;
/** A P has fallen to a fraction of its height this far from its peak, s. */
const BEND = 0.018;
/** QRS is over so long after its marked end, and the next P begins so long before its peak, s. */
const CLEAR = 0.025;
const BEFORE_P = 0.06;
/** What an early P bends the line, beside the usual P, and beside the most that the usual beats do by themselves (their upper twentieth). */
const OF_P = 0.35;
const OF_OTHERS = 1.5;
const MOST_OF_OTHERS = 0.95;
/** Fewer usual beats make no average; more are not needed for one. */
const ENOUGH = 6;
const PLENTY = 200;
/** In fewer of the long intervals they are no cause of their length; one alone may be noise. */
const MOST = 0.6;
const LEAST = 2;

/** P waves that come early and that no QRS follows. */
export interface BlockedEarlyP {
  /** Their times, s, ascending. */
  readonly times: readonly number[];
  /** Places of the beats that end the intervals in which they stand. */
  readonly ends: ReadonlySet<number>;
}

const NONE: BlockedEarlyP = { times: [], ends: new Set() };

/**
 * Early P waves that the ventricles were not ready for: each stands on the T of a beat and deforms it, and a longer interval
 * follows. Seen as what bends the line after such a beat and after no other, in most of the long intervals.
 */
export function blockedEarlyP(
  beats: readonly MarkedBeat[],
  quiet: readonly Channel[],
): BlockedEarlyP {
  const led = beats.filter(hasP);
  const cycles = cyclesOf(beats);
  const long = cycles.filter(({ pace }) => pace >= LONG);
  const usual = cycles.filter(({ pace }) => pace <= USUAL && pace >= 1 / USUAL);
  if (long.length < LEAST || usual.length < ENOUGH || led.length < ENOUGH) return NONE;
  const ahead = median(led.map(aheadOf));
  const from = median(beats.map(lengthAfterR)) + CLEAR;
  const each = Math.max(1, Math.floor(usual.length / PLENTY));
  const others = usual.filter((_, i) => i % each === 0);
  const shown = quiet.map((lead) => {
    const p = bendOfP(lead, led, ahead);
    return shownIn(lead, long, others, { from, ahead, p });
  });
  const most = shown.reduce((a, b) => (b.length > a.length ? b : a), []);
  if (most.length < LEAST || most.length < MOST * long.length) return NONE;
  return { times: most.map(({ time }) => time), ends: new Set(most.map(({ end }) => end)) };
}

/** From one beat of the sinus node to the next. */
interface Cycle {
  readonly r: number;
  readonly interval: number;
  /** The interval usual around it, s, and this one as a share of that. */
  readonly usual: number;
  readonly pace: number;
  /** Place of the beat that ends it. */
  readonly end: number;
}

function cyclesOf(beats: readonly MarkedBeat[]): Cycle[] {
  const bare: Omit<Cycle, 'usual' | 'pace'>[] = [];
  for (let end = 1; end < beats.length; end += 1) {
    const [before, beat] = [beats[end - 1]!, beats[end]!];
    if (before.kind !== 'sinus' || beat.kind !== 'sinus') continue;
    bare.push({ r: before.time, interval: beat.time - before.time, end });
  }
  return bare.map((cycle, i) => {
    const around = bare.slice(Math.max(0, i - AROUND), i + AROUND + 1);
    const usual = median(around.map(({ interval }) => interval));
    return { ...cycle, usual, pace: cycle.interval / usual };
  });
}

/** Where P is looked for after R, s: from, and before which; and how sharply the usual P bends the line, mV. */
interface Search {
  readonly from: number;
  readonly ahead: number;
  readonly p: number;
}

/** The early P waves of one lead, with the place of the beat that ends their interval. */
function shownIn(
  lead: Channel,
  long: readonly Cycle[],
  others: readonly Cycle[],
  search: Search,
): { readonly time: number; readonly end: number }[] {
  const { from, ahead } = search;
  const room = ({ interval, usual }: Cycle): number =>
    Math.min(EARLY * usual, interval - BEFORE_P) - ahead;
  const to = Math.min(median(others.map(room)), median(long.map(room)));
  const length = valuesBetween(from - BEND, to + BEND, P_RATE);
  const by = Math.round(BEND * P_RATE);
  if (length < 4 * by) return [];
  const rowsOf = (cycles: readonly Cycle[]) =>
    cycles.flatMap((cycle) => {
      const row = new Float64Array(length);
      excerptInto(lead, cycle.r + from - BEND, P_RATE, row, 0, length);
      return isWhole(row) ? [{ cycle, row }] : [];
    });
  const usual = rowsOf(others);
  if (usual.length < ENOUGH) return [];
  const mean = average(usual.map(({ row }) => row));
  // A row is itself part of the average that is taken off it.
  const own = usual.length / (usual.length - 1);
  const ordinary = usual.map(({ row }) => own * sharpest(row, mean, by).bend);
  const least = Math.max(OF_P * search.p, OF_OTHERS * quantile(ordinary, MOST_OF_OTHERS));
  return rowsOf(long).flatMap(({ cycle, row }) => {
    const { bend, at } = sharpest(row, mean, by);
    const time = cycle.r + from - BEND + at / P_RATE;
    return bend >= least ? [{ time, end: cycle.end }] : [];
  });
}

/** The sharpest bend of a row less the mean, mV, and its place. */
function sharpest(
  row: Float64Array,
  mean: Float64Array,
  by: number,
): { readonly bend: number; readonly at: number } {
  const off = (i: number): number => row[i]! - mean[i]!;
  let best = { bend: 0, at: by };
  for (let i = by; i + by < row.length; i += 1) {
    const bend = Math.abs(off(i) - (off(i - by) + off(i + by)) / 2);
    if (bend > best.bend) best = { bend, at: i };
  }
  return best;
}

/** How sharply the average P bends the line, mV; without one nothing tells how an early one would look. */
function bendOfP(lead: Channel, led: readonly MarkedBeat[], ahead: number): number {
  const by = Math.round(BEND * P_RATE);
  const rows = led.slice(0, PLENTY).flatMap(({ time }) => {
    const row = new Float64Array(4 * by + 1);
    excerptInto(lead, time - ahead - 2 * BEND, P_RATE, row, 0, row.length);
    return isWhole(row) ? [row] : [];
  });
  if (rows.length < ENOUGH) return Number.POSITIVE_INFINITY;
  const mean = average(rows);
  return sharpest(mean, new Float64Array(mean.length), by).bend;
}
