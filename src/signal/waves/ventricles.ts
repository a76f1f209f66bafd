import { median } from '../filter/order-statistics.js';
import { averageOf } from './average.js';
import { takeOutWander } from './baseline.js';
import { type Family, familiesOf } from './families.js';
import { steps } from './grid.js';
import { type Group, groupsOf } from './group.js';
import { confidenceFrom, type Mark } from './marks.js';
import { type Edges, qrsEdges } from './qrs-edges.js';
import { smooth } from './smooth.js';
import { type TWave, tEdges } from './t-edges.js';
import { type TFit, TShape } from './t-fit.js';

/** The part of a beat that is averaged to find its QRS, and its T; in s around R. */
const qrsPart = { before: 0.13, after: 0.18 };
const tPart = { before: 0.1, after: 0.5 };
/** So many beats of one shape are averaged to find the edges of their QRS. */
const sharingQrs = 64;
/** Fewer beats of a shape than this are marked only if they stand so many times above the noise. */
const fewest = 4;
const clearlyOver = 20;
/** A guess of the QRS onset, before it is known; in s before R. */
const roughOnset = 0.05;
/** Where the QRS of the next beat cannot be seen, it begins so long before its R; in s. */
const beforeNext = 0.045;
/**
 * A QRS lower than this share of the largest family's, and seemingly longer than this, is followed by its
 * own gentle bends into P and T: it is held to what no QRS of half its width exceeds; in s.
 */
const low = { share: 0.5, longer: 0.09, before: 0.03, after: 0.06 };
/** A time to the next beat in which a T may not find room; in s. */
const shortForT = 0.32;
/** A single beat's T less like the average than this is not seen. */
const alike = 0.5;

/** A group with what its average shows; positions relative to those of the members. */
export interface MarkedGroup extends Group {
  readonly family: number;
  readonly qrs: { readonly onset: number; readonly end: number };
  /** Height of the QRS from its lowest to its highest point, mV. */
  readonly qrsHeight: number;
  /** Noise of a single member away from its QRS, root mean square, mV. */
  readonly noise: number;
  readonly t: TWave | null;
  /** T of the average, from the QRS end on; what a member shows beyond it is not of the ventricles. */
  readonly tShape: Float64Array;
  readonly fits: readonly (TFit | null)[];
}

/** QRS and T of each beat, in grid positions; null where there is none or it cannot be seen. */
export interface Ventricles {
  readonly groups: readonly MarkedGroup[];
  readonly qrs: readonly (Mark | null)[];
  readonly t: readonly (Mark | null)[];
  /** Whether the beats of its shape show a T, even if it cannot be marked in this one. */
  readonly hasT: readonly boolean[];
}

/** Marks QRS and T on a lead and takes the wander out of it, in place. `samples` in mV on the grid. */
export function markVentricles(samples: Float64Array, beats: readonly number[]): Ventricles {
  takeOutWander(
    samples,
    beats.map((beat) => beat - steps(roughOnset)),
    beats,
  );
  const families = familiesOf(samples, beats);
  const largest = families.reduce<Family | null>(
    (most, each) => (each.members.length > (most?.members.length ?? 0) ? each : most),
    null,
  );
  const [usual] = largest ? groupsOf(largest, sharingQrs) : [];
  const usualHeight = (usual && seeQrs(samples, usual, 0)?.qrsHeight) ?? 0;
  const found = families.flatMap((family, k) =>
    groupsOf(family, sharingQrs).flatMap((block) => {
      const seen = seeQrs(samples, block, usualHeight);
      return seen ? groupsOf(block).map((group) => ({ ...group, ...seen, family: k })) : [];
    }),
  );
  const qrs: (Mark | null)[] = beats.map(() => null);
  for (const group of found) {
    const confidence = confidenceFrom(group.qrsHeight / group.noise, { hidden: 3, sure: 20 });
    group.members.forEach((member, k) => {
      const at = group.positions[k]!;
      qrs[member] = {
        onset: at + group.qrs.onset,
        peak: beats[member]!,
        end: at + group.qrs.end,
        confidence,
      };
    });
  }
  const seenBeats = beats.flatMap((beat, k) => (qrs[k] ? [{ beat, onset: qrs[k].onset }] : []));
  takeOutWander(
    samples,
    seenBeats.map(({ onset }) => onset),
    seenBeats.map(({ beat }) => beat),
  );
  const groups = found.map((group) => ({ ...group, ...seeT(samples, beats, qrs, group) }));
  const hasT = beats.map(() => false);
  for (const { members, t } of groups) if (t) for (const member of members) hasT[member] = true;
  return { groups, qrs, t: tMarks(groups, qrs, beats), hasT };
}

function seeQrs(samples: Float64Array, { positions }: Group, usualHeight: number) {
  const { before, after } = { before: steps(qrsPart.before), after: steps(qrsPart.after) };
  const everything = () => [0, samples.length - 1] as const;
  const { mean, at, error, count } = averageOf(samples, positions, before, after, everything);
  const soft = softened(mean);
  const noise = count > 1 ? error * Math.sqrt(count) : loneNoise(samples, positions[0]!);
  const followed = qrsEdges(soft, at, noise / Math.sqrt(count));
  if (!followed) return null;
  const held = {
    onset: Math.max(followed.onset, at - steps(low.before)),
    end: Math.min(followed.end, at + steps(low.after)),
  };
  const isLow =
    followed.end - followed.onset > steps(low.longer) &&
    heightOf(soft, held) < low.share * usualHeight;
  const edges = isLow ? held : followed;
  const qrsHeight = heightOf(soft, edges);
  // A beat or two of a shape of their own, in noise, may as well be noise.
  if (count < fewest && Math.max(qrsHeight, low.share * usualHeight) < clearlyOver * noise) {
    return null;
  }
  return { qrs: { onset: edges.onset - at, end: edges.end - at }, qrsHeight, noise };
}

/** From the lowest to the highest point, mV. */
function heightOf(mean: Float64Array, { onset, end }: Edges): number {
  let highest = Number.NEGATIVE_INFINITY;
  let lowest = Number.POSITIVE_INFINITY;
  for (let i = onset; i <= end; i++) {
    if (mean[i]! > highest) highest = mean[i]!;
    if (mean[i]! < lowest) lowest = mean[i]!;
  }
  return highest - lowest;
}

/** Where there is no second beat to compare with: the part that changes from sample to sample. */
function loneNoise(samples: Float64Array, position: number): number {
  const bends: number[] = [];
  const from = Math.max(1, position - steps(0.3));
  for (let i = from; i + 1 < Math.min(samples.length, position + steps(0.3)); i++) {
    bends.push(Math.abs(samples[i]! - 0.5 * (samples[i - 1]! + samples[i + 1]!)));
  }
  // The bend of white noise spreads over root 1.5 times its own deviation.
  return median(bends) / 0.6745 / Math.sqrt(1.5);
}

/** Quarter, half, quarter: takes the edge off single samples. */
function softened(mean: Float64Array): Float64Array {
  return mean.map((x, i) =>
    i === 0 || i === mean.length - 1 ? x : 0.25 * mean[i - 1]! + 0.5 * x + 0.25 * mean[i + 1]!,
  );
}

function seeT(
  samples: Float64Array,
  beats: readonly number[],
  qrsMarks: readonly (Mark | null)[],
  group: Omit<MarkedGroup, 't' | 'tShape' | 'fits'>,
): Pick<MarkedGroup, 't' | 'tShape' | 'fits'> {
  const before = steps(tPart.before);
  const after = steps(tPart.after);
  const nextOnset = (k: number): number => {
    const next = group.members[k]! + 1;
    const beat = beats[next];
    return (
      qrsMarks[next]?.onset ?? (beat === undefined ? samples.length : beat - steps(beforeNext))
    );
  };
  const limits = (k: number) => [0, nextOnset(k) - 2] as const;
  const cycles = group.positions.map((position, k) => nextOnset(k) - position);
  const shows = showingWholeT(cycles);
  const cycle = Math.round(median(cycles.filter((_, k) => shows[k]))) - group.qrs.onset;
  const qrs = { onset: before + group.qrs.onset, end: before + group.qrs.end };
  /** The QRS of a beat that is laid earlier, for its T to fit, ends by so many samples `later` on the average. */
  const see = (positions: readonly number[], later: number) => {
    const whole = positions.flatMap((position, k) => (shows[k] ? [{ position, k }] : []));
    const { mean, error } = averageOf(
      samples,
      whole.map(({ position }) => position),
      before,
      after,
      (i) => limits(whole[i]!.k),
    );
    const soft = smoothed(mean);
    // The smoothing over about 15 ms leaves a third of the noise.
    const ended = { ...qrs, end: qrs.end + later };
    return { mean: soft, t: tEdges(soft, ended, cycle, error / 3, group.qrsHeight) };
  };
  const fitsOf = (mean: Float64Array, t: TWave | null) => {
    const shape = t && new TShape(mean, before, t);
    return group.positions.map((position, k) =>
      shape && position + t.end - before < nextOnset(k) ? shape.fit(samples, position) : null,
    );
  };
  const first = see(group.positions, 0);
  const roughFits = fitsOf(first.mean, first.t);
  // Laid over each other by T rather than by R, T is not blurred where cycles differ.
  const shifted = group.positions.map((position, k) => position + sureShift(roughFits[k] ?? null));
  const later = Math.max(0, ...shifted.map((p, k) => group.positions[k]! - p));
  const second =
    first.t && shifted.some((p, k) => p !== group.positions[k]) ? see(shifted, later) : first;
  const best = second.t ? second : first;
  const { mean, t } = best;
  const fits = best === first ? roughFits : fitsOf(mean, t);
  return {
    t: t && relative(t, before),
    tShape: t
      ? mean.slice(qrs.end, Math.min(mean.length, t.end + steps(0.02)))
      : new Float64Array(),
    fits,
  };
}

/**
 * Which beats show their T. In pairs and runs of early beats the next QRS cuts most of them off, and
 * only the last, which is followed by a far longer time, shows all of it.
 */
function showingWholeT(cycles: readonly number[]): boolean[] {
  const middle = median(cycles);
  const longest = Math.max(...cycles);
  const isCut = middle < steps(shortForT) && longest > 1.6 * middle;
  return cycles.map((cycle) => !isCut || cycle > 0.6 * longest);
}

const sureShift = (fit: TFit | null): number => (fit && fit.likeness > 0.7 ? fit.shift : 0);

const relative = (t: TWave, at: number): TWave => ({
  ...t,
  onset: t.onset - at,
  peak: t.peak - at,
  end: t.end - at,
});

/** Smoothed over about 15 ms; the outermost samples, which have no neighbours, as they are. */
function smoothed(mean: Float64Array): Float64Array {
  const soft = smooth(mean, 3);
  return mean.map((x, i) => (!Number.isNaN(soft[i]) ? soft[i]! : x));
}

function tMarks(
  groups: readonly MarkedGroup[],
  qrs: readonly (Mark | null)[],
  beats: readonly number[],
): (Mark | null)[] {
  const marks: (Mark | null)[] = beats.map(() => null);
  for (const { members, positions, t, fits, noise } of groups) {
    if (!t) continue;
    // Noise of a T measured over some 40 ms of one beat.
    const clear = confidenceFrom(Math.abs(t.height) / (noise / 4), { hidden: 2, sure: 12 });
    members.forEach((member, k) => {
      const fit = fits[k];
      if (!fit || !(fit.likeness >= alike)) return;
      const at = positions[k]! + sureShift(fit);
      const end = at + t.end;
      const next = qrs[member + 1]?.onset ?? Number.POSITIVE_INFINITY;
      if (end > next) return;
      marks[member] = {
        onset: Math.max(at + t.onset, qrs[member]!.end),
        peak: at + t.peak,
        end,
        confidence: clear * confidenceFrom(fit.likeness, { hidden: 0.3, sure: 0.9 }),
      };
    });
  }
  return marks;
}
