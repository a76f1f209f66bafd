import { average, excerpt, level } from '../../filter/excerpt.js';
import { solve } from '../../filter/solve.js';
import { mean, median } from '../../filter/spread.js';
import type { MarkedBeat, Patient } from '../../marked-beat.js';
import type { Channel } from '../../waveform.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

/** Hz. */
const RATE = 250;
/** Half of the stretch that is compared, s: a P of a dog or cat (0.035 to 0.04 s) and its shoulders. */
const HALF = 0.028;
/** Atria need not wait exactly alike after a beat; s. */
const PLAY = 0.016;
/** After R, s: nearer than this a QRS would be taken for a P. */
const CLEAR_OF_QRS = 0.07;
/** Fewer stretches tell nothing of their scatter. */
const ENOUGH = 4;
/** Standard errors added to what was seen. */
const MARGIN = 2;
/** Times the least standard error. */
const AS_SURE = 1.5;
/** A T changes over this time, s (the scale of its covariance): a P is narrower by half. */
const SMOOTH: Record<Patient['species'], number> = {
  dog: 0.022,
  cat: 0.018,
  rabbit: 0.014,
  ferret: 0.014,
};
/** Of the height of T, squared: where the trace lies as a whole does not count. */
const LEVEL = 10;
/** Of the height of T, squared: T is not that smooth in the last hundredth. */
const RIDGE = 1e-5;
export interface PlaceForP {
  readonly before: MarkedBeat;
  readonly beat: MarkedBeat;
}

/**
 * How much of a P wave may stand where one would if only each second or third were followed by a
 * QRS: halfway, or at thirds, between the P waves of neighbouring beats. 1 is a whole P, 0 none. It
 * is the upper end of what the trace allows (two standard errors), in the lead that tells most. NaN
 * where it cannot be seen: a QRS covers the place, or noise does; 0 where there is no P to compare with.
 *
 * Such a place often lies within T, which is taller than a P but smoother. So the averaged trace is
 * taken as T, any curve as smooth as `SMOOTH` allows, plus noise plus a share of the P, and the share
 * is fitted by generalised least squares with T as a Gaussian process (Rasmussen CE, Williams CKI,
 * Gaussian Processes for Machine Learning, 2006, section 2.7: explicit basis functions).
 *
 * @param pairs neighbouring beats that no ventricle started
 * @param beats all of the stretch: their P waves are the pattern
 */
export function hiddenP(
  pairs: readonly PlaceForP[],
  beats: readonly MarkedBeat[],
  leads: readonly Channel[],
  quiet: readonly Channel[],
  { species }: Patient,
): number {
  const led = beats.filter(({ p }) => p !== null);
  if (led.length < ENOUGH) return 0;
  // Counted from R: a peak that was marked in noise is a peak of that noise too.
  const ahead = median(led.map(({ time, p }) => time - p!.peak));
  const own = led.map(({ time }) => time - ahead);
  // Hum makes the one unsure; the wider waves of the other let more of T through.
  const views = [...leads, ...quiet].flatMap((lead) => viewOf(lead, own) ?? []);
  const mostAt = (part: number): number => {
    const places = pairs.flatMap(({ before, beat }) => {
      const after = part * (beat.time - before.time) - ahead;
      return after > CLEAR_OF_QRS ? [before.time + after] : [];
    });
    const found = views.flatMap((view) => shareOfP(view, places, SMOOTH[species]) ?? []);
    const least = Math.min(...found.map(({ error }) => error));
    // Of those that are about as sure as the surest, the one that sees most.
    const sure = found.filter(({ error }) => error <= AS_SURE * least);
    return sure.length > 0
      ? Math.max(...sure.map(({ share, error }) => share + MARGIN * error))
      : Number.POSITIVE_INFINITY;
  };
  const half = mostAt(1 / 2);
  if (!Number.isFinite(half)) return Number.NaN;
  return Math.max(0, half, ...[1 / 3, 2 / 3].map(mostAt).filter(Number.isFinite));
}

/** A lead, and its usual P, from two halves of the beats: noise has no part in what they share. */
interface View {
  readonly lead: Channel;
  readonly pattern: Float64Array;
  readonly halves: readonly [Float64Array, Float64Array];
}

function viewOf(lead: Channel, own: readonly number[]): View | null {
  const rows = stretches(lead, own, HALF);
  if (rows.length < 2 * ENOUGH) return null;
  const half = (odd: number): Float64Array => onLine(average(rows.filter((_, i) => i % 2 === odd)));
  return { lead, pattern: onLine(average(rows)), halves: [half(0), half(1)] };
}

/** Less the straight line between its ends: a P stands on the line, and is 0 beyond. */
function onLine(row: Float64Array): Float64Array {
  const last = row.length - 1;
  const first = mean([...row.subarray(0, END)]);
  const tilt = (mean([...row.subarray(-END)]) - first) / (row.length - END);
  return row.map((value, i) =>
    i < END - 1 || i > last - END + 1 ? 0 : value - first - tilt * (i - (END - 1) / 2),
  );
}

/** Samples at either end that P does not reach. */
const END = 3;

/** The most of a P that may stand at `times`; infinite where too few of them can be read. */
function shareOfP(
  { lead, pattern, halves }: View,
  times: readonly number[],
  smooth: number,
): { readonly share: number; readonly error: number } | null {
  const rows = stretches(lead, times, HALF + PLAY).map(level);
  if (rows.length < ENOUGH) return null;
  const all = average(rows);
  const noise = mean(rows.map((row) => mean([...row].map((value, i) => (value - all[i]!) ** 2))));
  const spread = smoothOrNoise(all, noise / (rows.length - 1), smooth);
  let most = { share: Number.NEGATIVE_INFINITY, error: 0 };
  for (let shift = 0; shift + pattern.length <= all.length; shift += 1) {
    const [one, two, whole] = [...halves, pattern].map((part) => at(part, shift, all.length));
    const weights = solve(spread, whole!);
    const power = dot(solve(spread, one!), two!);
    if (!(power > 0)) return null;
    const share = dot(weights, all) / power;
    const scatter = mean(rows.map((row) => (dot(weights, row) / power - share) ** 2));
    const error = Math.sqrt(Math.max(1 / power, scatter / (rows.length - 1)));
    if (share > most.share) most = { share, error };
  }
  return most;
}

/** How the points of the averaged trace vary together where no P stands: T, and `noise` mV². */
function smoothOrNoise(all: Float64Array, noise: number, smooth: number): Float64Array {
  const n = all.length;
  const height = Math.max(...all.map((value) => value ** 2));
  const out = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      const apart = (i - j) / RATE / smooth;
      out[i * n + j] = height * (Math.exp(-0.5 * apart * apart) + LEVEL);
    }
    out[i * n + i]! += noise + RIDGE * height;
  }
  return out;
}

function at(pattern: Float64Array, shift: number, length: number): Float64Array {
  const out = new Float64Array(length);
  out.set(pattern, shift);
  return out;
}

/** Those that can be read throughout. */
function stretches(lead: Channel, times: readonly number[], half: number): Float64Array[] {
  return times
    .map((time) => excerpt(lead, time - half, time + half, RATE))
    .filter((row) => row.every((value) => !Number.isNaN(value)));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
