import { average, isWhole, level } from '../filter/excerpt.js';
import { medianOfFinite } from '../filter/order-statistics.js';
import { searchRate } from '../filter/qrs-steepness.js';
import { differences } from '../filter/spread.js';
import type { SearchLead } from './search-lead.js';
import type { Candidate } from './taken.js';

// The constants of this file are choices of the method, made by trial on generated strips: not clinical numbers.

const inSteps = (s: number): number => Math.round(s * searchRate);

/** A gap in which one beat on time is missing lasts so many usual intervals. */
const gapOfTwo = { least: 1.7, most: 2.3 };
/** The missing beat stands so near to its time, as a share of the usual interval. */
const onTime = 0.2;
/** Beats on either side that tell what is usual; fewer than `least` tell nothing. */
const around = { most: 4, least: 4 };
/** Where P stands, before R; and how far it may be from there, as R of the missing beat is not known; s. */
const beforeR = { from: inSteps(0.16), to: inSteps(0.035) };
/** Where T peaks, after R; s. */
const afterR = { from: inSteps(0.08), to: inSteps(0.34) };
/** What is before the missing beat is this much like the P of the beats around it, and of their size within this factor. */
const alike = 0.85;
const sizeWithin = 1.8;
/** P and T of the beats around stand so many times above what they differ from each other. */
const overNoise = 3;
const tOverNoise = 10;
/** A T bends over this to either side, s; as much as this share of a usual T, so near to its place. */
const bend = inSteps(0.06);
/** So long before the next R its P may begin, which is no part of such a bend. */
const beforeNext = beforeR.from + bend;
const ownT = { share: 0.6, within: inSteps(0.05) };
/** R is taken where the trace is steepest, this near to where P lets it be expected; s. */
const play = inSteps(0.03);

/**
 * A beat that stands out less may be the P of one whose QRS is lower still; as a multiple of the local QRS level, or, where
 * the waves of others have set that, of what the beats around stand out.
 */
const strong = { level: 0.35, ofOthers: 0.7 };

/** The place of a beat that is too low to stand out, with the lead that shows its T. */
export interface LowBeat {
  readonly position: number;
  readonly lead: number;
  /** The beats between which it is the only one. */
  readonly from: number;
  readonly to: number;
}

/**
 * Beats whose QRS is too low or too gentle to be found by itself, as one is in which sinus node and a
 * ventricle meet half-way. Where one beat on time is missing, its P stands there as before the beats
 * around, and a wave where they have their T: only ventricles that were stirred have a T, so that the
 * P was followed. A blocked P is not followed by a T. `found` ascend.
 */
export function beatsBetweenPAndT(
  found: readonly Candidate[],
  leads: readonly SearchLead[],
): LowBeat[] {
  const beats = found.filter(isStrong).map(positionOf);
  const low: LowBeat[] = [];
  for (let i = 1; i < beats.length; i += 1) {
    if (isLongOf(i, beats)) low.push(...lowBeatBefore(i, beats, leads));
  }
  return low;
}

function isStrong({ prominence }: Candidate, i: number, found: readonly Candidate[]): boolean {
  if (prominence >= strong.level) return true;
  const near = found.slice(Math.max(0, i - around.most), i + around.most + 1);
  return prominence >= strong.ofOthers * medianOfFinite(near.map(prominenceOf));
}

const prominenceOf = ({ prominence }: Candidate): number => prominence;
const positionOf = ({ position }: Candidate): number => position;

/** Whether the gap before a beat is long beside the shortest around; else it is not so beside the middle one. */
function isLongOf(i: number, beats: readonly number[]): boolean {
  const gap = beats[i]! - beats[i - 1]!;
  const last = Math.min(beats.length - 1, i - 1 + around.most);
  for (let k = Math.max(1, i + 1 - around.most); k <= last; k += 1) {
    const other = beats[k]! - beats[k - 1]!;
    if (other !== gap && gap >= gapOfTwo.least * other) return true;
  }
  return false;
}

/** The beat between two that are so far apart, if there is one. */
function lowBeatBefore(
  i: number,
  beats: readonly number[],
  leads: readonly SearchLead[],
): LowBeat[] {
  const before = beats[i - 1]!;
  const after = beats[i]!;
  const near = beats.slice(Math.max(0, i - around.most), i + around.most);
  const gap = after - before;
  const usual = medianOfFinite(differences(near).filter((other) => other !== gap));
  if (!(gap >= gapOfTwo.least * usual && gap <= gapOfTwo.most * usual)) return [];
  if (near.length < around.least) return [];
  const at = placeOfP(before, after, usual, near, leads);
  const lead = at === null ? -1 : leadWithT(leads, at, near, usual);
  if (at === null || lead < 0) return [];
  return [{ position: steepest(at, leads), lead, from: before, to: after }];
}

/** Where R is to be expected by the P before it; null where no P stands alike. */
function placeOfP(
  before: number,
  after: number,
  usual: number,
  near: readonly number[],
  leads: readonly SearchLead[],
): number | null {
  const seen = leads.flatMap(({ grid }) => {
    const cut = (at: number) => level(calm(grid, at - beforeR.from, at - beforeR.to));
    const rows = near
      .map(cut)
      .filter((row) => row.length === beforeR.from - beforeR.to && isWhole(row));
    if (rows.length < around.least) return [];
    const mean = average(rows);
    const noise = Math.sqrt(medianOfFinite(rows.map((row) => distance(row, mean))));
    return span(mean) >= overNoise * noise ? [{ cut, mean, weight: 1 / noise ** 2 }] : [];
  });
  if (seen.length === 0) return null;
  const from = Math.max(before + (1 - onTime) * usual, after - (1 + onTime) * usual);
  const to = Math.min(before + (1 + onTime) * usual, after - (1 - onTime) * usual);
  let best = { alike, at: null as number | null };
  for (let at = Math.ceil(from); at <= to; at += 1) {
    let cross = 0;
    let own = 0;
    let usualSize = 0;
    for (const { cut, mean, weight } of seen) {
      const row = cut(at);
      if (row.length !== mean.length || !isWhole(row)) continue;
      for (let k = 0; k < row.length; k += 1) {
        cross += weight * row[k]! * mean[k]!;
        own += weight * row[k]! ** 2;
        usualSize += weight * mean[k]! ** 2;
      }
    }
    const ratio = Math.sqrt(own / usualSize);
    if (!(ratio < sizeWithin && ratio > 1 / sizeWithin)) continue;
    const here = cross / Math.sqrt(own * usualSize);
    if (here > best.alike) best = { alike: here, at };
  }
  return best.at;
}

/** The lead that shows the T of the beats around most clearly, where it shows a wave there after `at` too; -1 otherwise. */
function leadWithT(
  leads: readonly SearchLead[],
  at: number,
  near: readonly number[],
  usual: number,
): number {
  const seen = leads.map((lead) => tOn(lead, at, near, usual));
  const clearest = Math.max(...seen.map((t) => t?.overNoise ?? 0));
  return clearest < tOverNoise
    ? -1
    : seen.findIndex((t) => t !== null && t.overNoise === clearest && t.share >= ownT.share);
}

/** How far the usual T stands above noise, and how much of it stands after `at`; null where it cannot be seen. */
function tOn(
  { grid }: SearchLead,
  at: number,
  near: readonly number[],
  usual: number,
): { readonly overNoise: number; readonly share: number } | null {
  const latest = Math.min(afterR.to, Math.round(usual) - beforeNext);
  const cut = (r: number) => calm(grid, r + afterR.from - bend, r + latest + bend);
  const length = latest - afterR.from + 2 * bend;
  const isSeen = (row: Float64Array): boolean => row.length === length && isWhole(row);
  const rows = near.map(cut).filter(isSeen);
  const here = cut(at);
  if (length <= 2 * bend || rows.length < around.least || !isSeen(here)) return null;
  const mean = average(rows);
  const tip = farthestBend(mean, bend, mean.length - bend);
  const noise = Math.sqrt(medianOfFinite(rows.map((row) => distance(level(row), level(mean)))));
  const own = farthestBend(here, tip.at - ownT.within, tip.at + ownT.within + 1);
  return {
    overNoise: Math.abs(tip.height) / noise,
    share: Math.abs(own.height) / Math.abs(tip.height),
  };
}

function farthestBend(row: Float64Array, from: number, to: number): { at: number; height: number } {
  let best = { at: -1, height: 0 };
  for (let i = Math.max(bend, from); i < Math.min(to, row.length - bend); i += 1) {
    const height = row[i]! - (row[i - bend]! + row[i + bend]!) / 2;
    if (Math.abs(height) > Math.abs(best.height)) best = { at: i, height };
  }
  return best;
}

function steepest(at: number, leads: readonly SearchLead[]): number {
  let best = { position: at, most: 0 };
  for (let i = at - play; i <= at + play; i += 1) {
    const here = Math.hypot(
      ...leads.map(({ steepness, level: of }) => (steepness[i] || 0) / of.at(i)),
    );
    if (here > best.most) best = { position: i, most: here };
  }
  // On the rim it is a flank of P or T.
  return Math.abs(best.position - at) < play ? best.position : at;
}

/** The stretch with each sample the mean of five: 0.02 s, one turn of the mains, which hardly touches P and T. */
function calm(grid: Float64Array, from: number, to: number): Float64Array {
  if (from < 2 || to + 2 > grid.length || to <= from) return new Float64Array();
  return Float64Array.from({ length: to - from }, (_, k) => {
    const i = from + k;
    return (grid[i - 2]! + grid[i - 1]! + grid[i]! + grid[i + 1]! + grid[i + 2]!) / 5;
  });
}

/** Highest less lowest. */
const span = (row: Float64Array): number => Math.max(...row) - Math.min(...row);

/** Mean of the squared differences. */
function distance(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += (a[i]! - b[i]!) ** 2;
  return sum / a.length;
}
