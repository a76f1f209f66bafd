import { searchRate } from '../filter/qrs-steepness.js';
import type { BlockLevels } from '../quality/qrs-level.js';
import { likeness } from './likeness.js';
import type { SearchLead } from './search-lead.js';
import type { Candidate } from './taken.js';

/** What stands out so many times as much as the lowest fifth around it is not noise. */
const overRest = 3.5;
/** Stretches are judged this long; in grid samples, 3 s. */
const block = 3 * searchRate;
/** So many of the most prominent waves of a stretch are compared with each other. */
const compared = 6;
const alikeEnough = 0.85;
/** Share of like pairs that makes a rhythm; among as many R as T it is 0.4, in noise near 0. */
const likePairs = 1 / 3;

/**
 * The candidates that are not mere noise: those that stand out far above the rest between beats,
 * and, in stretches where the same wave comes back, those that look like it. The second is needed
 * because a fast heart with tall T has no rest: at 260 beats/min one wave runs into the next.
 */
export function clearOfNoise(
  candidates: readonly Candidate[],
  rest: BlockLevels,
  leads: readonly SearchLead[],
): Candidate[] {
  const clear: Candidate[] = [];
  for (const here of byBlock(candidates)) addClear(here, rest, leads, clear);
  return clear;
}

/** Those of one stretch. */
function addClear(
  here: readonly Candidate[],
  rest: BlockLevels,
  leads: readonly SearchLead[],
  clear: Candidate[],
): void {
  let returning: readonly Candidate[] | undefined;
  for (const candidate of here) {
    if (candidate.prominence >= overRest * rest.at(candidate.position)) {
      clear.push(candidate);
      continue;
    }
    returning ??= returningAmong([...here].sort(byProminence).slice(0, compared), leads);
    if (returning.some((other) => alike(leads, candidate, other))) clear.push(candidate);
  }
}

const byProminence = (a: Candidate, b: Candidate): number => b.prominence - a.prominence;

/** Those of the strongest waves that come back, if enough of them do. */
function returningAmong(strongest: readonly Candidate[], leads: readonly SearchLead[]) {
  const pairs = strongest.flatMap((a, i) => strongest.slice(i + 1).map((b) => [a, b] as const));
  const like = pairs.filter(([a, b]) => alike(leads, a, b));
  return pairs.length >= 3 && like.length >= likePairs * pairs.length
    ? [...new Set(like.flat())]
    : [];
}

const alike = (leads: readonly SearchLead[], a: Candidate, b: Candidate) =>
  likeness(leads, a.position, b.position).alike >= alikeEnough;

/** The candidates of each stretch, in order of time. */
function byBlock(candidates: readonly Candidate[]): Candidate[][] {
  const blocks: Candidate[][] = [];
  let last = -1;
  for (const candidate of candidates) {
    const at = Math.floor(candidate.position / block);
    if (at !== last) blocks.push([]);
    last = at;
    blocks.at(-1)!.push(candidate);
  }
  return blocks;
}
