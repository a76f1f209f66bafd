import {
  average,
  levelled,
  scatterAbout,
  valuesBetween,
  wholeExcerpts,
} from '../../filter/excerpt.js';
import { median, share } from '../../filter/spread.js';
import type { MarkedBeat, Wave } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';
import { usualHeight } from './between-beats.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Neighbouring beats, and the P waves between them. */
interface Pair {
  readonly before: MarkedBeat;
  readonly beat: MarkedBeat;
  readonly inside: readonly Wave[];
}

/** Behind R the trace is compared from this long on, to this long at most, and until so long before the next P; s. */
const BEHIND = { from: 0.06, to: 0.55, beforeP: 0.02, least: 0.1 };
/** P begins no longer before R than this where it is not marked, s. */
const UNMARKED_P = 0.16;
/** Hz. */
const RATE = 200;
/** So few others tell nothing. */
const ENOUGH = 3;
/** What strays from the others by this share of a QRS, and so many times as far as they do, is another wave. */
const SIZE = 0.35;
const OVER_OTHERS = 8;

/**
 * Share of the gaps in which the trace behind the last beat is not as behind the others: an early beat that was not counted
 * hides in it. The ventricles recover alike whether or not the next P is followed. NaN where it cannot be compared.
 */
export function waveInGaps(
  gaps: readonly Pair[],
  others: readonly Pair[],
  quiet: readonly Channel[],
): number {
  if (gaps.length === 0 || others.length < ENOUGH) return Number.NaN;
  const to = Math.min(BEHIND.to, median(others.map(toP)), median(gaps.map(toP))) - BEHIND.beforeP;
  if (!(to - BEHIND.from >= BEHIND.least)) return Number.NaN;
  const roomy = others.filter((pair) => toP(pair) >= to);
  const seen = quiet.map((lead) => straysOn(lead, gaps, roomy, to));
  return share(gaps, (_, k) => seen.some((strays) => strays?.[k] === true));
}

/** From R to the next P, s. */
const toP = ({ before, beat, inside: [first] }: Pair): number =>
  (first?.onset ?? beat.p?.onset ?? beat.time - UNMARKED_P) - before.time;
const startOf = ({ before }: Pair): number => before.time + BEHIND.from;

/** Of each gap, whether one lead shows another wave in it; null where the lead shows too few of the others. */
function straysOn(
  lead: Channel,
  gaps: readonly Pair[],
  others: readonly Pair[],
  to: number,
): readonly boolean[] | null {
  const length = valuesBetween(BEHIND.from, to, RATE);
  const cut = (pairs: readonly Pair[]) =>
    levelled(wholeExcerpts(lead, pairs.map(startOf), length, RATE));
  const usual = cut(others);
  if (usual.length < ENOUGH) return null;
  const middle = average(usual);
  const qrs = usualHeight(
    lead,
    gaps.map(({ before }) => before),
  );
  const limit = Math.max(SIZE * qrs, OVER_OTHERS * Math.sqrt(scatterAbout(middle, usual)));
  return gaps.map((gap) => {
    const [row] = cut([gap]);
    return row !== undefined && spanOf(row.map((value, i) => value - middle[i]!)) > limit;
  });
}

/** From the lowest to the highest value. */
function spanOf(row: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const value of row) {
    low = Math.min(low, value);
    high = Math.max(high, value);
  }
  return high - low;
}
