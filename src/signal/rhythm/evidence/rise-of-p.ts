import { averageExcerpt, valuesBetween } from '../../filter/excerpt.js';
import { differences, median } from '../../filter/spread.js';
import type { MarkedBeat, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz: the half of the height is found to a millisecond. */
const RATE = 1000;
/** A P has risen from its base line within this, s, or in this share of the usual interval. */
const BEFORE = { seconds: 0.08, share: 0.3 };
/** A line at rest is looked for over this, s, or this share of the usual interval; it moves by no more than this share of P, in each lead with so much of the tallest P. */
const REST = { seconds: 0.16, share: 0.45, moves: 0.06, shown: 0.3 };
/** The peak may stand this far from where it was marked, s: a P is marked between its two tips where it has two, and either is the higher. */
const PLAY = 0.016;
/**
 * The flank is followed up to this share of the height, which a bell or a sine takes this share of the time from its half to
 * its peak for: behind that the higher tip of two may follow late.
 */
const FLANK = { to: 0.8, ofRise: 0.43 };
/** P stand so far over noise that their peaks are where they were marked. */
const SURE = 0.95;
/** Fewer make no average. */
const ENOUGH = 4;

/** How the usual P begins, s. */
export interface BeginningOfP {
  /** From the half of its height to its peak; NaN where it cannot be seen. */
  readonly rise: number;
  /** The longest line at rest shortly before it; 0 where the trace does not rest. */
  readonly rest: number;
}

const UNSEEN: BeginningOfP = { rise: Number.NaN, rest: 0 };

/**
 * How long the usual P takes from the half of its height to its peak, s, in the lead where it is
 * tallest; NaN where it cannot be seen. A P lasts half a tenth of a second at most. A wave of
 * fluttering atria that stands before each QRS rises for as long as it falls, without a rest. A P with two tips, or one
 * that a filter has blurred, may seem to rise as slowly; the line before it rests.
 *
 * @param beats of the sinus node, as far as is known
 */
export function beginningOfP(
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
): BeginningOfP {
  const led = beats.filter(hasP);
  if (led.length < ENOUGH) return UNSEEN;
  const usual = median(differences(beats.map(timeOf)));
  const before = Math.min(BEFORE.seconds, BEFORE.share * usual);
  const around = Math.max(before, Math.min(REST.seconds, REST.share * usual));
  const peaks = led.map(peakOf);
  const times = led.map(timeOf);
  // A peak marked in noise is a peak of that noise too; else P is not blurred where PR follows the rate.
  const isSure = median(led.map(surenessOf)) >= SURE;
  const starts = isSure
    ? earlier(peaks, around)
    : earlier(earlier(times, median(distances(peaks, times))), around);
  const found = leads.flatMap((lead) => {
    const { mean, count } = averageExcerpt(lead, starts, valuesBetween(-around, PLAY, RATE), RATE);
    if (count < ENOUGH) return [];
    const last = lastRise(mean.subarray(Math.round((around - before) * RATE)));
    return [{ ...last, rest: longestRest(mean, REST.moves * last.height) }];
  });
  const [tallest] = found.sort((one, two) => two.height - one.height);
  if (!tallest) return UNSEEN;
  const showing = found.filter(({ height }) => height >= REST.shown * tallest.height);
  return { rise: tallest.rise, rest: Math.min(...showing.map(({ rest }) => rest)) };
}

/** The longest part of a row whose values differ by no more than this, s. */
function longestRest(row: Float64Array, moves: number): number {
  let longest = 0;
  for (let from = 0; from + longest < row.length; from += 1) {
    let low = row[from]!;
    let high = low;
    let to = from + 1;
    for (; to < row.length; to += 1) {
      low = Math.min(low, row[to]!);
      high = Math.max(high, row[to]!);
      if (high - low > moves) break;
    }
    longest = Math.max(longest, to - from - 1);
  }
  return longest / RATE;
}

type WithP = MarkedBeat & { readonly p: Wave };

const hasP = (beat: MarkedBeat): beat is WithP => beat.p !== null;
const timeOf = ({ time }: MarkedBeat): number => time;
const peakOf = ({ p }: WithP): number => p.peak;
const surenessOf = ({ p }: WithP): number => p.confidence;

function earlier(times: readonly number[], by: number): number[] {
  const out: number[] = [];
  for (const time of times) out.push(time - by);
  return out;
}

/** From each of the first to its second. */
function distances(from: readonly number[], to: readonly number[]): number[] {
  const out: number[] = [];
  for (let i = 0; i < from.length; i += 1) out.push(to[i]! - from[i]!);
  return out;
}

/**
 * Of a row that ends just after the peak, upright or not. NaN where no peak stands there: what was marked
 * is then a remnant of a larger wave.
 */
function lastRise(row: Float64Array): { readonly rise: number; readonly height: number } {
  const ways = [row, row.map((value) => -value)].map(riseTo);
  const seen = ways.filter(({ rise }) => !Number.isNaN(rise));
  return seen.sort((one, two) => two.height - one.height)[0] ?? ways[0]!;
}

function riseTo(upright: Float64Array): { readonly rise: number; readonly height: number } {
  const from = upright.length - 1 - 2 * Math.round(PLAY * RATE);
  let peak = from;
  for (let i = from; i < upright.length; i += 1) if (upright[i]! > upright[peak]!) peak = i;
  const base = Math.min(...upright.subarray(0, peak + 1));
  const height = upright[peak]! - base;
  if (peak === from || peak === upright.length - 1) return { rise: Number.NaN, height };
  let half = peak;
  while (half > 0 && upright[half]! - base > height / 2) half -= 1;
  const from50 = crossing(upright, half, base + height / 2);
  const to80 = crossing(upright, half, base + FLANK.to * height);
  const byFlank = (to80 - from50) / FLANK.ofRise;
  return { rise: Math.min(peak - from50, byFlank) / RATE, height };
}

/** Where a row rises over a level for the first time from a place on, between its values. */
function crossing(row: Float64Array, from: number, level: number): number {
  let at = from;
  while (row[at + 1]! < level) at += 1;
  return at + (level - row[at]!) / (row[at + 1]! - row[at]!);
}
