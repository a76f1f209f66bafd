import { medianOfFinite } from '../filter/order-statistics.js';
import type { Atria, Tip } from './atrial-tip.js';
import { atrialTrace } from './atrial-trace.js';
import { Bumps, TWO_TIPS } from './bumps.js';
import {
  type ConductedP,
  conductedP,
  drowned,
  earliestTip,
  leastShareOnT,
  ownTip,
  spreadOf,
  tailOfT,
  tipBeforeQrs,
} from './conducted-p.js';
import { fadingTips } from './fading-p.js';
import { steps } from './grid.js';
import type { Group } from './group.js';
import { pEdges } from './p-edges.js';
import { regularFamily } from './p-family.js';
import type { MarkedGroup, Ventricles } from './ventricles.js';

/** A beat has the P of its group from this share of the usual height on, if noise is below it. */
const ownShare = 0.45;
const overNoise = 2;
/** A P elsewhere must stand out more, and be like the others in height. */
const elsewhere = { overNoise: 5, from: 0.5, to: 1.8 };
/** On the T before it, where what is left of T hinders, still more. */
const onT = { overNoise: 8, from: 0.7 };
/** Shares of the beats whose group has a P at all, and of those whose P has the commoner sign. */
const mostly = { ofBeats: 0.2, ofOneSign: 0.8 };
/** A P that is not clear by itself lies within this of where the clear ones lie; in s. */
const besideClear = 0.02;
/** A T is taken out well if it is so much like the average. */
const wellFitted = 0.8;
/** Nearer to a P than this is another tip of it, in s: not even atria that fibrillate are stirred again so soon. From memory, unverified. */
const otherTip = 0.08;
/** The P before a QRS, if not the usual one, comes at most so long before it (tip to onset); in s. */
const longestPr = 0.34;
/** P and QRS belong together where the time between them keeps to one part of the P-P cycle. */
const together = 0.8;
/** So many of a family's beats must have a P before them for it to be theirs. */
const mostBeats = 0.6;

/** Fewer do not show where the P of a shape's beats stands. */
const fewest = 4;

/** A P before a QRS that cannot be seen peaks at least so long before R; in s. */
const beforeUnseen = 0.05;

/** Distances to the beats that vary less than this are kept; in s. */
const locked = 0.012;

/** Marks the P waves of a lead without wander and hum. `samples` in mV on the grid. */
export function markAtria(
  samples: Float64Array,
  beats: readonly number[],
  ventricles: Ventricles,
): Atria {
  const trace = atrialTrace(samples, beats, ventricles.qrs, ventricles.groups);
  const search = searched(trace, beats, ventricles);
  search.settle();
  return pEdges(trace, beats, ventricles, search.owned(), search.lone());
}

/** Where no P of one tip recurs, one of two tips may lead to the beats. */
function searched(trace: Float64Array, beats: readonly number[], ventricles: Ventricles): Search {
  const search = new Search(beats, ventricles, new Bumps(trace));
  search.findConducted();
  search.findElsewhere();
  if (search.finds) return search;
  const wide = new Search(beats, ventricles, new Bumps(trace, TWO_TIPS));
  wide.findConducted();
  if (!wide.finds) return search;
  wide.findElsewhere();
  return wide;
}

class Search {
  private readonly spreads: readonly number[];
  private readonly own: (Tip | null)[];
  private others: Tip[] = [];
  /** Signed usual height of a P on this lead, mV; NaN where no P recurs. */
  private usual = Number.NaN;
  private readonly fromGroup: boolean[];

  constructor(
    private readonly beats: readonly number[],
    private readonly ventricles: Ventricles,
    private readonly bumps: Bumps,
  ) {
    this.own = new Array<Tip | null>(beats.length).fill(null);
    this.fromGroup = new Array<boolean>(beats.length).fill(false);
    this.spreads = ventricles.groups.map((group) => spreadOf(group, bumps));
  }

  owned(): readonly (Tip | null)[] {
    return this.own;
  }

  lone(): readonly Tip[] {
    return this.others;
  }

  /** Whether a P recurs. */
  get finds(): boolean {
    return !Number.isNaN(this.usual);
  }

  findConducted(): void {
    const { groups } = this.ventricles;
    const shared = groups.map((group, k) =>
      conductedP(group, this.ventricles, this.beats, this.bumps, this.spreads[k]!),
    );
    // The height of each clear P, once for each beat that has it, and how long before the QRS it stands.
    const up: number[] = [];
    const down: number[] = [];
    const beforeQrs: number[] = [];
    for (let k = 0; k < groups.length; k++) {
      const p = shared[k];
      if (!p?.isClear) continue;
      const { members, qrs } = groups[k]!;
      repeat(members.length, p.height, p.height > 0 ? up : down);
      repeat(members.length, qrs.onset - p.offset, beforeQrs);
    }
    const clear = beforeQrs.length;
    if (clear === 0 || clear < mostly.ofBeats * this.beats.length) return;
    // Coarse fibrillation that keeps step with a few beats by chance does so in no one direction.
    if (Math.max(up.length, down.length) < mostly.ofOneSign * clear) return;
    this.usual = medianOfFinite(up.length >= down.length ? up : down);
    const usualBefore = medianOfFinite(beforeQrs);
    groups.forEach((group, k) => {
      const p = shared[k];
      if (!p || p.height / this.usual < 0.35 || p.height / this.usual > 2.5) return;
      const away = Math.abs(group.qrs.onset - p.offset - usualBefore);
      if (p.isClear || away <= steps(besideClear)) this.giveTips(group, p, this.spreads[k]!);
    });
    const { beats, ventricles, bumps, usual, spreads, own } = this;
    const known = { beats, ventricles, bumps, usual, spreads, own, shared, usualBefore };
    fadingTips(known).forEach((tip, k) => {
      if (!tip) return;
      own[k] = tip;
      this.fromGroup[k] = true;
    });
    this.usual = this.heightWhereFound();
  }

  /** Each P at its own tip: where PR changes from beat to beat, the average of a group is lower than any of its P waves. */
  private heightWhereFound(): number {
    const heights: number[] = [];
    for (const tip of this.own) if (tip) heights.push(this.bumps.heightAt(tip.at));
    return heights.length > 0 ? medianOfFinite(heights) : this.usual;
  }

  /** Each member of a group the P that they share, where it is seen. */
  private giveTips({ members, positions }: Group, p: ConductedP, spread: number): void {
    for (let m = 0; m < members.length; m++) {
      const member = members[m]!;
      this.own[member] = this.ownOf(member, positions[m]!, p, spread);
      this.fromGroup[member] = this.own[member] !== null;
    }
  }

  private ownOf(member: number, position: number, p: ConductedP, spread: number): Tip | null {
    const at = ownTip(position, p.offset, Math.sign(p.height), this.bumps);
    if (at < 0 || at < earliestTip(member, this.ventricles, this.beats)) return null;
    const height = this.bumps.heightAt(at) / p.height;
    const overNoise = Math.abs(this.bumps.heightAt(at)) / spread;
    const isSeen = height >= ownShare && overNoise >= overNoise_(p, spread);
    return isSeen ? { at, sign: Math.sign(p.height), overNoise } : null;
  }

  /** P waves off the usual place: blocked, dissociated, premature, or after a changed PR. */
  findElsewhere(): void {
    let candidates = this.candidates();
    if (this.isRemnant(candidates)) {
      this.forgetConducted();
      candidates = this.candidates();
    }
    if (Number.isNaN(this.usual)) {
      const family = regularFamily(candidates, this.bumps);
      // What keeps its distance to the beats, yet is no P of theirs, is a remnant of QRS or T.
      if (!family || this.keepsToBeats(family.tips)) return;
      this.usual = family.height;
      this.others = [...family.tips];
      return;
    }
    this.others = candidates.filter(({ at, sign }) => {
      const share = this.bumps.heightAt(at) / this.usual;
      return sign === Math.sign(this.usual) && share >= elsewhere.from && share <= elsewhere.to;
    });
  }

  /** What recurs before beats is no P where far larger tips, more of them, stand elsewhere. */
  private isRemnant(candidates: readonly Tip[]): boolean {
    const larger = candidates.filter(
      ({ at }) => this.bumps.heightAt(at) / this.usual > elsewhere.to,
    );
    return larger.length > this.own.filter(isThere).length;
  }

  private forgetConducted(): void {
    this.own.fill(null);
    this.fromGroup.fill(false);
    this.usual = Number.NaN;
  }

  private keepsToBeats(tips: readonly Tip[]): boolean {
    const after: number[] = [];
    const before: number[] = [];
    let next = 0;
    for (const { at } of tips) {
      while (next < this.beats.length && this.beats[next]! < at) next++;
      after.push(at - (this.beats[next - 1] ?? Number.NaN));
      before.push((this.beats[next] ?? Number.NaN) - at);
    }
    return [after, before].some((distances) => {
      const middle = medianOfFinite(distances);
      return medianOfFinite(distances.map((d) => Math.abs(d - middle))) < steps(locked);
    });
  }

  /** Every tip that stands out of noise and is not yet taken. */
  private candidates(): Tip[] {
    const search: TipSearch = {
      taken: this.own.filter(isThere).map(placeOf),
      spread: this.spreadOfBeats(),
      signs: !Number.isNaN(this.usual) ? [Math.sign(this.usual)] : [1, -1],
      tHeights: new Float64Array(this.beats.length),
      noisy: new Uint8Array(this.beats.length),
      found: [],
    };
    for (const group of this.ventricles.groups) noteT(group, search);
    for (let k = -1; k < this.beats.length; k++) this.searchBetween(k, search);
    return search.found.sort(byPlace);
  }

  /** Tips from the QRS of a beat to that of the next. */
  private searchBetween(k: number, { taken, spread, signs, tHeights, noisy, found }: TipSearch) {
    if (noisy[k] || noisy[k + 1]) return;
    const { qrs, t } = this.ventricles;
    const after = qrs[k + 1];
    const from = earliestTip(k + 1, this.ventricles, this.beats);
    const to = after
      ? after.onset - steps(tipBeforeQrs.least)
      : k + 1 < this.beats.length
        ? this.beats[k + 1]! - steps(beforeUnseen)
        : this.bumps.length - 1;
    const noise = spread[Math.max(0, k)] ?? this.bumps.spreadAt(from);
    const tEnd = k >= 0 ? (t[k]?.end ?? 0) + steps(tailOfT) : 0;
    const least = Math.max(elsewhere.overNoise * noise, elsewhere.from * Math.abs(this.usual || 0));
    for (const sign of signs) {
      for (const at of this.bumps.tips(from, to, sign, least)) {
        const overNoise = (sign * this.bumps.heightAt(at)) / noise;
        if (at < tEnd && !this.isClearOfT(at, overNoise, tHeights[k] ?? 0)) continue;
        if (taken.length > 0 && isNear(taken, at, steps(otherTip))) continue;
        found.push({ at, sign, overNoise });
      }
    }
  }

  /** A tip on a T is a P only if the usual P is known, and it is no remnant of a T fitted badly. */
  private isClearOfT(at: number, overNoise: number, tHeight: number): boolean {
    const height = this.bumps.heightAt(at);
    return (
      height / this.usual >= onT.from &&
      overNoise >= onT.overNoise &&
      Math.abs(height) >= leastShareOnT * tHeight
    );
  }

  private spreadOfBeats(): number[] {
    const spread: number[] = [];
    for (const beat of this.beats) spread.push(this.bumps.spreadAt(beat));
    for (let k = 0; k < this.spreads.length; k++) {
      for (const member of this.ventricles.groups[k]!.members) spread[member] = this.spreads[k]!;
    }
    return spread;
  }

  /** Gives each beat without its usual P the one before it, if they belong together. */
  settle(): void {
    const nearest: (Tip | null)[] = [];
    for (let k = 0; k < this.own.length; k++) {
      nearest.push(this.own[k] ? null : this.lastBefore(k));
    }
    if (!nearest.some(isThere)) return;
    const cycle = this.atrialCycle();
    const families = new Map<number, number[]>();
    for (const { family, members } of this.ventricles.groups) {
      const known = families.get(family) ?? [];
      families.set(family, known);
      for (const member of members) known.push(member);
    }
    const taken = new Set<Tip>();
    for (const members of families.values()) {
      const fromGroup = members.filter((k) => this.fromGroup[k]);
      const withTip = members.filter((k) => nearest[k]);
      if (withTip.length === 0) continue;
      const before = (k: number) =>
        this.ventricles.qrs[k]!.onset - (this.own[k] ?? nearest[k]!)!.at;
      const known = members.filter((k) => this.own[k] ?? nearest[k]);
      const areTheirs =
        (fromGroup.length + withTip.length) / members.length >= mostBeats &&
        (known.length < 4
          ? fromGroup.length > 0 || this.isUsualDistance(withTip.map(before))
          : concentration(known.map(before), cycle) >= together);
      // Where only a part of a shape's beats is led, each of these has its P where the others have theirs.
      const usual = fromGroup.length < fewest ? Number.NaN : medianOfFinite(fromGroup.map(before));
      for (const k of withTip) {
        if (!areTheirs && !(Math.abs(before(k) - usual) <= steps(besideClear))) continue;
        this.own[k] = nearest[k]!;
        taken.add(nearest[k]!);
      }
    }
    this.settleUnseen(nearest, taken);
    this.others = this.others.filter((tip) => !taken.has(tip));
  }

  /** A QRS that cannot be seen, as it is low, has its P where the others have theirs. */
  private settleUnseen(nearest: readonly (Tip | null)[], taken: Set<Tip>): void {
    const usual = medianOfFinite(
      this.beats.flatMap((beat, k) => (this.fromGroup[k] ? [beat - this.own[k]!.at] : [])),
    );
    nearest.forEach((tip, k) => {
      if (!tip || this.ventricles.qrs[k]) return;
      if (Math.abs(this.beats[k]! - tip.at - usual) > steps(besideClear)) return;
      this.own[k] = tip;
      taken.add(tip);
    });
  }

  /** Too few beats to compare with each other are compared with the beats whose P is sure. */
  private isUsualDistance(distances: readonly number[]): boolean {
    const sure = this.beats.flatMap((_, k) => {
      const tip = this.fromGroup[k] ? this.own[k] : null;
      return tip ? [this.ventricles.qrs[k]!.onset - tip.at] : [];
    });
    const usual = medianOfFinite(sure);
    return distances.every((d) => Math.abs(d - usual) < 0.4 * usual);
  }

  /** The last unclaimed tip before a beat that is near enough to have led to it. */
  private lastBefore(k: number): Tip | null {
    const onset = this.ventricles.qrs[k]?.onset ?? this.beats[k]!;
    const earliest = Math.max(
      earliestTip(k, this.ventricles, this.beats),
      onset - steps(longestPr),
    );
    let low = 0;
    let high = this.others.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.others[middle]!.at < onset) low = middle + 1;
      else high = middle;
    }
    const tip = this.others[low - 1];
    return tip && tip.at >= earliest ? tip : null;
  }

  private atrialCycle(): number {
    const all = [...this.own.filter(isThere), ...this.others].map(placeOf).sort(ascending);
    const cycles: number[] = [];
    for (let i = 1; i < all.length; i++) cycles.push(all[i]! - all[i - 1]!);
    return medianOfFinite(cycles);
  }
}

/** What is known of the beats while tips are searched between them. */
interface TipSearch {
  /** Grid positions of the tips that beats have already, ascending. */
  readonly taken: readonly number[];
  /** Of each beat: noise, mV; the height of its T, mV; whether no small wave is told. */
  readonly spread: readonly number[];
  readonly tHeights: Float64Array;
  readonly noisy: Uint8Array;
  readonly signs: readonly number[];
  readonly found: Tip[];
}

function noteT({ members, fits, noise, qrsHeight, t }: MarkedGroup, search: TipSearch): void {
  const isNoisy = noise > drowned * qrsHeight;
  for (let k = 0; k < members.length; k++) {
    const member = members[k]!;
    // Where T could not be fitted well, its remnants are as large as itself.
    const isFitted = (fits[k]?.likeness ?? 1) >= wellFitted;
    if (isNoisy) search.noisy[member] = 1;
    search.tHeights[member] = isFitted ? Math.abs(t?.height ?? 0) : Number.POSITIVE_INFINITY;
  }
}

const isThere = (tip: Tip | null): tip is Tip => tip !== null;
const placeOf = ({ at }: Tip): number => at;
const byPlace = (a: Tip, b: Tip): number => a.at - b.at;
const ascending = (a: number, b: number): number => a - b;

function repeat(times: number, value: number, out: number[]): void {
  for (let i = 0; i < times; i++) out.push(value);
}

/** In noise a P must be seen at least so far above it. */
const overNoise_ = (p: ConductedP, spread: number): number =>
  Math.abs(p.height) / spread > 4 ? overNoise : overNoise + 0.5;

/** Length of the mean of the distances as angles of the cycle: 1 all alike, near 0 anywhere. */
function concentration(distances: readonly number[], cycle: number): number {
  let c = 0;
  let s = 0;
  for (const distance of distances) {
    const angle = (2 * Math.PI * distance) / cycle;
    c += Math.cos(angle);
    s += Math.sin(angle);
  }
  return Math.hypot(c, s) / distances.length;
}

function isNear(sorted: readonly number[], at: number, within: number): boolean {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]! < at - within) low = middle + 1;
    else high = middle;
  }
  return low < sorted.length && sorted[low]! <= at + within;
}
