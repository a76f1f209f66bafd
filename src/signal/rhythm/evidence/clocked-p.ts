import { average, excerptInto, isWhole, valuesBetween } from '../../filter/excerpt.js';
import { mostOf as greatest, leastOf, mean, median, quantile } from '../../filter/spread.js';
import type { MarkedBeat } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { bothThirds, type HiddenP } from './hidden-p.js';
import { basisOf, dot, lessBasis, squaresOf, takeOff } from './less-usual.js';
import { aheadOf, HALF, hasP, lengthAfterR, PLAY, type UsualP, usualP } from './usual-p.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: a P moves by few thousandths of a second against R. */
const RATE = 500;
/** Steps by which the place of a P is tried, s. */
const STEP = 0.004;
/** Fewer cycles tell nothing of how they vary. */
const ENOUGH = 10;
/** More cycles are not needed to tell. */
const PLENTY = 400;
/** Farther from the others a place is left out, s. */
const FAR = 0.03;
/** Places farther off than so many times the usual way are those of an R that was misread, or of an early beat. */
const MISREAD = 5;
/** The intervals must vary by this share, and the places move by this many s (root mean square): R is misread by less. */
const VARIES = 0.0075;
const MOVES = 0.0008;
/** Standard errors added to what was seen. */
const MARGIN = 2;
/** Rows with this many times the usual squares hold a jolt. */
const JOLT = 6;

/** A beat, and how long after it a P that keeps the time of the atria would peak, s. */
interface Place {
  readonly r: number;
  readonly after: number;
  /** From R to R, s: what the place was taken from. */
  readonly interval: number;
  /** When the P of the next beat begins at the earliest, s after R. */
  readonly room: number;
}

/** What is told so. NaN where the intervals vary too little to tell, or too few can be seen. */
export interface ClockedP extends HiddenP {
  /** Of a P halfway, at the least. */
  readonly halfAtLeast: number;
}

/**
 * How much of a P may stand halfway between those of neighbouring beats, told by what moves there: 1 for a whole
 * P, 0 for none. A P that is not followed keeps the time of the atria, and T that of the ventricles: where the
 * intervals vary, the one moves against the other, however tall T is. What each T does by itself (another height,
 * another place, on another line) is taken out of each cycle first. The upper end of what the trace allows (two
 * standard errors) over all the places where it may stand, from all leads together.
 */
export function clockedP(beats: readonly MarkedBeat[], leads: readonly Channel[]): ClockedP {
  const led = beats.filter(hasP);
  const ahead = median(led.map(aheadOf));
  const views = leads.flatMap((lead) => {
    const usual = usualP(lead, led, ahead, RATE);
    return usual ? [{ lead, usual }] : [];
  });
  if (led.length < ENOUGH || views.length === 0) return UNTOLD;
  const qrsEnd = median(beats.map(lengthAfterR));
  // After each interval the atria may keep the time of the one before or of the one that follows.
  const at = (part: number): Ends[] =>
    [1, 0].map((back) => endsOf(placesIn(beats, part, ahead, back), views, qrsEnd));
  const mostOf = (found: readonly Ends[]): number => Math.max(...found.map(({ most }) => most));
  const half = at(1 / 2);
  return {
    half: mostOf(half),
    thirds: bothThirds((part) => mostOf(at(part))),
    halfAtLeast: Math.max(...half.map(({ least }) => least)),
  };
}

const UNTOLD: ClockedP = { half: Number.NaN, thirds: Number.NaN, halfAtLeast: Number.NaN };

/** Upper and lower end. */
interface Ends {
  readonly most: number;
  readonly least: number;
}

const UNSEEN: Ends = { most: Number.NaN, least: Number.NaN };

function placesIn(
  beats: readonly MarkedBeat[],
  part: number,
  ahead: number,
  back: number,
): Place[] {
  const places: Place[] = [];
  for (let i = back; i + 1 < beats.length; i += 1) {
    const interval = intervalAfter(beats, i - back);
    const following = intervalAfter(beats, i);
    if (interval === null || following === null) continue;
    places.push({
      r: beats[i]!.time,
      after: part * interval - ahead,
      interval,
      room: following - ahead - HALF,
    });
  }
  const middle = crowded(places.map(({ after }) => after));
  const around = places.filter(({ after }) => Math.abs(after - middle) <= FAR);
  const usual = median(around.map(({ after }) => Math.abs(after - middle)));
  const near = around.filter(({ after }) => Math.abs(after - middle) <= MISREAD * usual);
  const each = Math.max(1, Math.ceil(near.length / PLENTY));
  return near.filter((_, i) => i % each === 0);
}

/** The middle of the places, or of those that most others are near to: T is not the same after intervals of any length. */
function crowded(afters: readonly number[]): number {
  const ranked = afters.toSorted((a, b) => a - b);
  let best = { from: 0, count: 0 };
  let end = 0;
  for (let from = 0; from < ranked.length; from += 1) {
    while (end < ranked.length && ranked[end]! - ranked[from]! <= 2 * FAR) end += 1;
    if (end - from > best.count) best = { from, count: end - from };
  }
  return median(ranked.slice(best.from, best.from + best.count));
}

/** From one beat of the atria to the next, s; null where either came from elsewhere. */
function intervalAfter(beats: readonly MarkedBeat[], at: number): number | null {
  const before = beats[at]!;
  const beat = beats[at + 1]!;
  return isFromAtria(before) && isFromAtria(beat) ? beat.time - before.time : null;
}

const isFromAtria = ({ kind }: MarkedBeat): boolean =>
  kind === 'sinus' || kind === 'aberrant' || kind === 'unclassified';

interface View {
  readonly lead: Channel;
  readonly usual: UsualP;
}

function endsOf(places: readonly Place[], views: readonly View[], qrsEnd: number): Ends {
  if (places.length < ENOUGH) return UNSEEN;
  const afters = places.map(({ after }) => after);
  const intervals = places.map(({ interval }) => interval);
  if (!(rms(intervals) >= VARIES * median(intervals)) || !(rms(afters) >= MOVES)) return UNSEEN;
  const side = HALF + PLAY;
  const first = leastOf(afters) - side;
  // A P that is seen beyond the QRS is told by what lies there.
  const from = median(afters) > qrsEnd + side / 2 ? Math.max(first, qrsEnd) : first;
  const to = Math.min(
    greatest(afters) + side,
    quantile(
      places.map(({ room }) => room),
      0.1,
    ),
  );
  if (to - median(afters) < HALF / 2) return UNSEEN;
  const seen = views.flatMap((view) => Seen.in(view, places, from, to) ?? []);
  if (seen.length === 0) return UNSEEN;
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.NEGATIVE_INFINITY;
  for (let by = -PLAY; by <= PLAY + 1e-9; by += STEP) {
    const ends = endsAt(seen, by);
    most = Math.max(most, ends.most);
    least = Math.max(least, ends.least);
  }
  return { most, least };
}

/** About their mean. */
function rms(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

/** For a P that comes so much later than halfway, s; anything may be where none could be seen. */
function endsAt(seen: readonly Seen[], by: number): Ends {
  // What one cycle has of its own shows in all leads: they are no witnesses apart.
  const cycles = new Map<number, Meeting>();
  for (const one of seen) one.addMeetings(by, cycles);
  const met = [...cycles.values()];
  const n = met.length;
  const power = met.reduce((sum, one) => sum + one.power, 0);
  if (!(power > 0) || n < ENOUGH) return { most: Number.POSITIVE_INFINITY, least: 0 };
  const share = met.reduce((sum, { product }) => sum + product, 0) / power;
  const scatter = met.reduce((sum, one) => sum + (one.product - share * one.power) ** 2, 0);
  const error = Math.sqrt(Math.max(1 / power, (scatter * n) / (n - 1) / power ** 2));
  return { most: share + MARGIN * error, least: share - MARGIN * error };
}

/** How far what is seen in a cycle goes along with a P that moves, and how far such a P would, over the noise. */
interface Meeting {
  product: number;
  power: number;
}

/** What moves in one lead, cycle by cycle, beside T. */
class Seen {
  /** Room for a P in each cycle, the whole and either half: its place is tried at many steps. */
  private readonly laid: readonly [Float64Array[], Float64Array[], Float64Array[]];

  private constructor(
    private readonly view: View,
    private readonly from: number,
    private readonly places: readonly Place[],
    private readonly rows: readonly Float64Array[],
    private readonly basis: readonly Float64Array[],
    /** mV². */
    private readonly noise: number,
  ) {
    const room = (): Float64Array[] => rows.map((row) => new Float64Array(row.length));
    this.laid = [room(), room(), room()];
  }

  static in(view: View, all: readonly Place[], from: number, to: number): Seen | null {
    const length = valuesBetween(from, to, RATE);
    const seen = all.flatMap((place) => {
      const row = new Float64Array(length);
      excerptInto(view.lead, place.r + from, RATE, row, 0, length);
      return isWhole(row) ? [{ place, row }] : [];
    });
    if (seen.length < ENOUGH) return null;
    // Jolts are known by what is left of them.
    const rough = basisOf(average(seen.map(({ row }) => row)));
    const squares = seen.map(({ row }) => squaresOf(lessBasis(row.slice(), rough)));
    const most = JOLT * median(squares);
    const calm = seen.filter((_, i) => squares[i]! <= most);
    if (calm.length < ENOUGH) return null;
    const basis = basisOf(average(calm.map(({ row }) => row)));
    const rows = calm.map(({ row }) => lessBasis(row, basis));
    const noise = rows.reduce((sum, row) => sum + squaresOf(row), 0) / (rows.length * length);
    return new Seen(
      view,
      from,
      calm.map(({ place }) => place),
      rows,
      basis,
      noise,
    );
  }

  /** Adds those of each cycle, by its R. */
  addMeetings(by: number, cycles: Map<number, Meeting>): void {
    const { whole, halves } = this.view.usual;
    const [expected, one, two] = this.laid;
    this.layMoving(whole, by, expected);
    this.layMoving(halves[0], by, one);
    this.layMoving(halves[1], by, two);
    this.rows.forEach((row, i) => {
      const { r } = this.places[i]!;
      const met = cycles.get(r) ?? { product: 0, power: 0 };
      met.product += dot(row, expected[i]!) / this.noise;
      met.power += dot(one[i]!, two[i]!) / this.noise;
      cycles.set(r, met);
    });
  }

  /** What a P in each cycle leaves when the mean over all cycles, and what T does by itself, are taken off. */
  private layMoving(p: Float64Array, by: number, out: readonly Float64Array[]): void {
    const { places, from, basis } = this;
    for (let i = 0; i < out.length; i += 1) {
      layStanding(p, (places[i]!.after + by - from) * RATE, out[i]!);
    }
    const usual = average(out);
    for (const row of out) {
      takeOff(row, 1, usual);
      lessBasis(row, basis);
    }
  }
}

/** The part of a P with its peak at a place, which need not be whole, that falls on the stretch. */
function layStanding(p: Float64Array, peak: number, out: Float64Array): void {
  const start = peak - (p.length - 1) / 2;
  const left = Math.floor(start);
  const rest = start - left;
  out.fill(0);
  const end = Math.min(out.length, left + p.length + 1);
  for (let i = Math.max(0, left); i < end; i += 1) {
    const at = i - left;
    const here = at < p.length ? p[at]! : 0;
    const before = at > 0 ? p[at - 1]! : 0;
    out[i] = before * rest + here * (1 - rest);
  }
}
