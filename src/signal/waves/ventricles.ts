import { medianOfFinite } from '../filter/order-statistics.js';
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
/** A time from the end of QRS to the next beat in which a T may not find room; in s. Behind a narrow QRS it does at 200 beats/min. */
const shortForT = 0.26;
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
  takeOutWander(samples, beats.map(roughOnsetOf), beats);
  const families = familiesOf(samples, beats);
  const usualHeight = heightOfLargest(samples, families);
  const found = families.flatMap((family, k) =>
    groupsOf(family, sharingQrs).flatMap((block) => {
      const seen = seeQrs(samples, block, usualHeight);
      return seen ? groupsOf(block).map((group) => ({ ...group, ...seen, family: k })) : [];
    }),
  );
  const qrs = new Array<Mark | null>(beats.length).fill(null);
  for (const group of found) markQrs(group, beats, qrs);
  takeOutWander(samples, qrs.filter(isMarked).map(onsetOf), qrs.filter(isMarked).map(peakOf));
  const groups = found.map((group) => ({ ...group, ...seeT(samples, beats, qrs, group) }));
  const hasT = new Array<boolean>(beats.length).fill(false);
  const t = new Array<Mark | null>(beats.length).fill(null);
  for (const group of groups) {
    if (!group.t) continue;
    for (const member of group.members) hasT[member] = true;
    markT(group, group.t, qrs, t);
  }
  return { groups, qrs, t, hasT };
}

/** Of the QRS of the largest family, mV; 0 where none is seen. */
function heightOfLargest(samples: Float64Array, families: readonly Family[]): number {
  let largest: Family | null = null;
  for (const family of families) {
    if (family.members.length > (largest?.members.length ?? 0)) largest = family;
  }
  const [usual] = largest ? groupsOf(largest, sharingQrs) : [];
  return (usual && seeQrs(samples, usual, 0)?.qrsHeight) ?? 0;
}

const roughOnsetOf = (beat: number): number => beat - steps(roughOnset);
const isMarked = (mark: Mark | null): mark is Mark => mark !== null;
const onsetOf = ({ onset }: Mark): number => onset;
const peakOf = ({ peak }: Mark): number => peak;

function markQrs(
  { members, positions, qrs, qrsHeight, noise }: Omit<MarkedGroup, 't' | 'tShape' | 'fits'>,
  beats: readonly number[],
  marks: (Mark | null)[],
): void {
  const confidence = confidenceFrom(qrsHeight / noise, { hidden: 3, sure: 20 });
  for (let k = 0; k < members.length; k++) {
    const member = members[k]!;
    const at = positions[k]!;
    marks[member] = {
      onset: at + qrs.onset,
      peak: beats[member]!,
      end: at + qrs.end,
      confidence,
    };
  }
}

function seeQrs(samples: Float64Array, { positions }: Group, usualHeight: number) {
  const { before, after } = { before: steps(qrsPart.before), after: steps(qrsPart.after) };
  const { mean, at, error, count } = averageOf(samples, positions, before, after);
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
  return medianOfFinite(bends) / 0.6745 / Math.sqrt(1.5);
}

/** Quarter, half, quarter: takes the edge off single samples. */
function softened(mean: Float64Array): Float64Array {
  const out = mean.slice();
  for (let i = 1; i + 1 < mean.length; i++) {
    out[i] = 0.25 * mean[i - 1]! + 0.5 * mean[i]! + 0.25 * mean[i + 1]!;
  }
  return out;
}

function seeT(
  samples: Float64Array,
  beats: readonly number[],
  qrsMarks: readonly (Mark | null)[],
  group: Omit<MarkedGroup, 't' | 'tShape' | 'fits'>,
): Pick<MarkedGroup, 't' | 'tShape' | 'fits'> {
  const search = new TSearch(samples, group, nextOnsets(samples, beats, qrsMarks, group.members));
  const first = search.see(group.positions, 0);
  const roughFits = search.fits(first);
  // Laid over each other by T rather than by R, T is not blurred where cycles differ.
  const shifted: number[] = [];
  let later = 0;
  let isShifted = false;
  for (let k = 0; k < roughFits.length; k++) {
    const shift = sureShift(roughFits[k]!);
    shifted.push(group.positions[k]! + shift);
    later = Math.max(later, -shift);
    isShifted ||= shift !== 0;
  }
  const second = first.t && isShifted ? search.see(shifted, later) : first;
  const best = second.t ? second : first;
  const { mean, t } = best;
  const from = steps(tPart.before);
  return {
    t: t && relative(t, from),
    tShape: t
      ? mean.slice(from + group.qrs.end, Math.min(mean.length, t.end + steps(0.02)))
      : new Float64Array(),
    fits: best === first ? roughFits : search.fits(best),
  };
}

/**
 * Where the QRS after each of the members begins; behind the last one the lead ends. A lead that cannot be read any more
 * ends there as well: what it hides is no long time in which a T would show.
 */
function nextOnsets(
  samples: Float64Array,
  beats: readonly number[],
  qrsMarks: readonly (Mark | null)[],
  members: readonly number[],
): number[] {
  const out: number[] = [];
  for (const member of members) {
    const beat = beats[member + 1];
    const rough = beat === undefined ? samples.length : beat - steps(beforeNext);
    out.push(endOfReading(samples, beats[member]!, qrsMarks[member + 1]?.onset ?? rough));
  }
  return out;
}

/** What cannot be read lasts longer than this, as shorter holes are bridged; in s. */
const shortestHole = 0.02;

/** The first sample from one place to another that cannot be read, or else that other place. */
function endOfReading(samples: Float64Array, from: number, to: number): number {
  for (let i = Math.max(0, from); i < to; i += steps(shortestHole)) {
    if (!Number.isNaN(samples[i]!)) continue;
    let first = i;
    while (first > from && Number.isNaN(samples[first - 1]!)) first--;
    return first;
  }
  return to;
}

/** The T of a group: on its average, and laid over its members. */
class TSearch {
  private readonly shows: readonly boolean[];
  /** From the onset of QRS to that of the next beat, usually. */
  private readonly cycle: number;

  constructor(
    private readonly samples: Float64Array,
    private readonly group: Omit<MarkedGroup, 't' | 'tShape' | 'fits'>,
    private readonly nextOnsets: readonly number[],
  ) {
    const cycles: number[] = [];
    const { positions, qrs } = group;
    for (let k = 0; k < positions.length; k++) cycles.push(nextOnsets[k]! - positions[k]!);
    this.shows = showingWholeT(cycles, qrs.end);
    const whole: number[] = [];
    for (let k = 0; k < cycles.length; k++) if (this.shows[k]) whole.push(cycles[k]!);
    this.cycle = Math.round(medianOfFinite(whole)) - qrs.onset;
  }

  /**
   * T on the average of the members laid at `positions`. The QRS of a beat that is laid earlier, for its T to fit, ends
   * by so many samples `later` on the average.
   */
  see(
    positions: readonly number[],
    later: number,
  ): { readonly mean: Float64Array; readonly t: TWave | null } {
    const before = steps(tPart.before);
    const whole: number[] = [];
    const lasts: number[] = [];
    for (let k = 0; k < positions.length; k++) {
      if (!this.shows[k]) continue;
      whole.push(positions[k]!);
      lasts.push(this.nextOnsets[k]! - 2);
    }
    const { mean, error } = averageOf(this.samples, whole, before, steps(tPart.after), lasts);
    const soft = smoothed(mean);
    const { qrs, qrsHeight } = this.group;
    const ended = { onset: before + qrs.onset, end: before + qrs.end + later };
    // The smoothing over about 15 ms leaves a third of the noise.
    return { mean: soft, t: tEdges(soft, ended, this.cycle, error / 3, qrsHeight) };
  }

  /** How the T of each member lies on the average; null where it has no room before the next QRS. */
  fits({
    mean,
    t,
  }: {
    readonly mean: Float64Array;
    readonly t: TWave | null;
  }): readonly (TFit | null)[] {
    const { positions } = this.group;
    const fits = new Array<TFit | null>(positions.length).fill(null);
    if (!t) return fits;
    const before = steps(tPart.before);
    const shape = new TShape(mean, before, t);
    for (let k = 0; k < positions.length; k++) {
      const position = positions[k]!;
      if (position + t.end - before < this.nextOnsets[k]!) {
        fits[k] = shape.fit(this.samples, position);
      }
    }
    return fits;
  }
}

/**
 * Which beats show their T. In pairs and runs of early beats the next QRS cuts most of them off, and
 * only the last, which is followed by a far longer time, shows all of it.
 */
function showingWholeT(cycles: readonly number[], qrsEnd: number): boolean[] {
  const middle = medianOfFinite(cycles);
  const longest = Math.max(...cycles);
  const isCut = middle - qrsEnd < steps(shortForT) && longest > 1.6 * middle;
  const shows: boolean[] = [];
  for (const cycle of cycles) shows.push(!isCut || cycle > 0.6 * longest);
  return shows;
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
  for (let i = 0; i < soft.length; i++) if (Number.isNaN(soft[i])) soft[i] = mean[i]!;
  return soft;
}

function markT(
  { members, positions, fits, noise }: MarkedGroup,
  t: TWave,
  qrs: readonly (Mark | null)[],
  marks: (Mark | null)[],
): void {
  // Noise of a T measured over some 40 ms of one beat.
  const clear = confidenceFrom(Math.abs(t.height) / (noise / 4), { hidden: 2, sure: 12 });
  for (let k = 0; k < members.length; k++) {
    const member = members[k]!;
    const fit = fits[k];
    if (!fit || !(fit.likeness >= alike)) continue;
    const at = positions[k]! + sureShift(fit);
    const end = at + t.end;
    if (end > (qrs[member + 1]?.onset ?? Number.POSITIVE_INFINITY)) continue;
    marks[member] = {
      onset: Math.max(at + t.onset, qrs[member]!.end),
      peak: at + t.peak,
      end,
      confidence: clear * confidenceFrom(fit.likeness, { hidden: 0.3, sure: 0.9 }),
    };
  }
}
