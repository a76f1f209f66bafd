import { average, excerptInto, isWhole, valuesBetween } from '../../filter/excerpt.js';
import { median, quantile } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { basisOf, dot, lessBasis, squaresOf } from './less-usual.js';
import { aheadOf, HALF, hasP, lengthAfterR, type UsualP, usualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz, and the steps by which the place of a P is tried. */
const RATE = 250;
/** Fewer cycles tell nothing. */
const ENOUGH = 6;
/** More cycles, or beats with their P, are not needed to tell. */
const PLENTY = 120;
/** A P may come so many standard deviations off halfway, at least and at most so many s. */
const REACH = { deviations: 2.5, least: 0.016, most: 0.05 };
/** Of a P that T looks like at its place less than this is left, squared: it tells nothing. */
const LEFT = 0.25;
/** The T between the P waves is taken anew so many times from what they leave. */
const TURNS = 3;
/** No P that is taken out is larger than this. */
const WHOLE = 1.2;
/** Standard errors added to what was seen. */
const MARGIN = 2;
/** A cycle with this many times the usual squares beside T holds a jolt. */
const JOLT = 6;

/**
 * How much of a P may stand about halfway between those of neighbouring beats, in each cycle at a time of its own: 1 for a
 * whole P, 0 for none, the upper end of what the trace allows (two standard errors). Atria that fire unevenly leave no P
 * in an average of the cycles; what T does is taken out of each cycle, and the P is sought in what is left of it. Noise
 * looks as often like a P as like one upside down, so the one is taken off the other. NaN where it cannot be seen.
 */
export function looseP(beats: readonly MarkedBeat[], leads: readonly Channel[]): number {
  const all = beats.filter(hasP);
  if (all.length < ENOUGH) return Number.NaN;
  const ahead = median(all.map(aheadOf));
  const led = thinned(all);
  const cycles = cyclesOf(beats, ahead);
  if (cycles.length < ENOUGH) return Number.NaN;
  const qrsEnd = median(beats.map(lengthAfterR));
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead, RATE);
    return usual ? (viewOf(lead, usual, cycles, qrsEnd) ?? []) : [];
  });
  const clearest = views.sort((a, b) => b.clarity - a.clarity)[0];
  return clearest ? upperEnd(clearest.shares()) : Number.NaN;
}

/** From one beat of the atria to the next. */
interface Cycle {
  readonly r: number;
  /** Halfway, and where the P of the next beat begins, s after R. */
  readonly half: number;
  readonly room: number;
}

function cyclesOf(beats: readonly MarkedBeat[], ahead: number): Cycle[] {
  const cycles: Cycle[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    const before = beats[i - 1]!;
    const beat = beats[i]!;
    if (!isFromAtria(before) || !isFromAtria(beat)) continue;
    const interval = beat.time - before.time;
    cycles.push({
      r: before.time,
      half: interval / 2 - ahead,
      room: interval - ahead - HALF,
    });
  }
  return thinned(cycles);
}

/** Every so-manieth, that no more are left than are needed. */
function thinned<T>(all: readonly T[]): T[] {
  const each = Math.max(1, Math.ceil(all.length / PLENTY));
  return all.filter((_, i) => i % each === 0);
}

const isFromAtria = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'aberrant' || kind === 'unclassified';

interface View {
  /** P over what T does not explain. */
  readonly clarity: number;
  /** What stands in each cycle that shows the place, P less P upside down. */
  readonly shares: () => number[];
}

function viewOf(
  lead: Channel,
  { whole }: UsualP,
  cycles: readonly Cycle[],
  qrsEnd: number,
): View | null {
  const halves = cycles.map(({ half }) => half);
  const middle = median(halves);
  const usually = median(halves.map((half) => Math.abs(half - middle))) / 0.6745;
  const reach = Math.min(REACH.most, Math.max(REACH.least, REACH.deviations * usually));
  const from = qrsEnd;
  const to = Math.min(
    quantile(halves, 0.9) + reach + HALF,
    quantile(
      cycles.map(({ room }) => room),
      0.1,
    ),
  );
  const length = valuesBetween(from, to, RATE);
  if (!(to - from > 2 * HALF)) return null;
  const rows: Float64Array[] = [];
  const places: (readonly [first: number, last: number])[] = [];
  for (const { r, half } of cycles) {
    const first = Math.max(0, Math.ceil((half - reach - from) * RATE));
    const last = Math.min(length - 1, Math.floor((half + reach - from) * RATE));
    if (last - first < reach * RATE) continue;
    const row = new Float64Array(length);
    excerptInto(lead, r + from, RATE, row, 0, length);
    if (!isWhole(row)) continue;
    rows.push(row);
    places.push([first, last]);
  }
  if (rows.length < ENOUGH) return null;
  const height = Math.max(...whole.map(Math.abs));
  const basis = basisOf(average(rows));
  const squares = rows.map((row) => squaresOf(lessBasis(row.slice(), basis)));
  const most = JOLT * median(squares);
  const isCalm = (_: unknown, i: number): boolean => squares[i]! <= most;
  return {
    clarity: height / Math.sqrt(median(squares) / length),
    shares: () => sharesIn(rows.filter(isCalm), places.filter(isCalm), whole),
  };
}

function sharesIn(
  rows: readonly Float64Array[],
  places: readonly (readonly [number, number])[],
  p: Float64Array,
): number[] {
  let bare = rows;
  let found: Found[] = [];
  for (let turn = 0; turn < TURNS; turn += 1) {
    const sought = new Sought(basisOf(average(bare)), p);
    found = rows.map((row, i) => sought.in(row, places[i]!));
    bare = rows.map((row, i) => without(row, p, found[i]!));
  }
  return found.map(({ upright, inverted }) => upright - inverted);
}

interface Found {
  /** Place and share of the best P, and the share of the best one upside down. */
  readonly at: number;
  readonly upright: number;
  readonly inverted: number;
}

/** A P that is sought beside what T does. */
class Sought {
  readonly #shapes = new Map<number, { readonly left: Float64Array; readonly power: number }>();

  constructor(
    private readonly basis: readonly Float64Array[],
    private readonly p: Float64Array,
  ) {}

  in(row: Float64Array, [first, last]: readonly [number, number]): Found {
    const rest = lessBasis(row.slice(), this.basis);
    const whole = dot(this.p, this.p);
    let best = { at: -1, upright: 0, gain: 0 };
    let worst = { inverted: 0, gain: 0 };
    for (let at = first; at <= last; at += 1) {
      const { left, power } = this.#shapeAt(at, row.length);
      if (power < LEFT * whole) continue;
      const share = dot(rest, left) / power;
      const gain = share * share * power;
      if (share > 0 && gain > best.gain) best = { at, upright: share, gain };
      if (share < 0 && gain > worst.gain) worst = { inverted: -share, gain };
    }
    return { at: best.at, upright: best.upright, inverted: worst.inverted };
  }

  /** A P with its peak at a place, less its part along what T does. */
  #shapeAt(at: number, length: number) {
    const known = this.#shapes.get(at);
    if (known) return known;
    const left = lessBasis(standing(this.p, at, length), this.basis);
    const shape = { left, power: dot(left, left) };
    this.#shapes.set(at, shape);
    return shape;
  }
}

function without(row: Float64Array, p: Float64Array, { at, upright }: Found): Float64Array {
  if (at < 0) return row;
  const wave = standing(p, at, row.length);
  const share = Math.min(WHOLE, upright);
  return row.map((x, i) => x - share * wave[i]!);
}

/** The part of a P with its peak at a step that falls on the stretch. */
function standing(p: Float64Array, peak: number, length: number): Float64Array {
  const before = peak - (p.length - 1) / 2;
  const out = new Float64Array(length);
  for (let i = 0; i < length; i += 1) out[i] = p[i - before] ?? 0;
  return out;
}

function upperEnd(shares: readonly number[]): number {
  const middle = median(shares);
  const spread = median(shares.map((share) => Math.abs(share - middle))) / 0.6745;
  // The middle one of many is a quarter less sure than their mean.
  return middle + (MARGIN * 1.25 * spread) / Math.sqrt(shares.length);
}
