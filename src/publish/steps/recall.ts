import type { Identifier } from '../../privacy/identifiers.js';
import type { Outcome } from '../../record/problem.js';
import { digestOf } from '../store/digest.js';
import { recalled } from '../store/remembered.js';
import { unread } from '../unread.js';
import type { Made, Order, Produced } from './produce.js';
import type { Found, Suspect } from './prove.js';
import type { Survey, Surveyed } from './survey.js';
import type { Workbench } from './workbench.js';

// What the store has of each step. Looking costs a hundredth of the work, so one thread looks, before any is started.

export function recallSurvey(folder: string, bench: Workbench): Survey | null {
  const outcome = recalled<Surveyed>(bench.store, surveySeed(folder, bench), bench.effects);
  return outcome && asSurvey(outcome, folder, bench);
}

/** Of all that a survey depends on beside the files of the case. */
export const surveySeed = (folder: string, { digest }: Workbench): string =>
  digestOf(digest, folder);

export const asSurvey = (
  outcome: Outcome<Surveyed>,
  folder: string,
  { effects }: Workbench,
): Survey =>
  outcome.ok ? outcome : { ok: false, value: unread(folder, outcome.problems, effects) };

interface MadeBefore extends Made {
  readonly outcome: { readonly ok: true; readonly value: Produced };
}

/** What was made of a case, where all but its files is known to be there: these are yet to be looked at. */
export function recallProduced(order: Order, bench: Workbench): MadeBefore | null {
  const { store } = bench;
  const key = producedKey(order, bench);
  const kept = store.value<Produced>(key);
  const isFound = (kept?.shown?.documents ?? []).every(({ passages }) => store.keeps(passages));
  return kept && isFound ? { outcome: { ok: true, value: kept }, isFresh: false } : null;
}

export const producedKey = (order: Order, { digest }: Workbench): string =>
  digestOf('documents', digest, JSON.stringify(order));

/** What documents were searched for, and what was found in them. Plain data. */
export interface Searched {
  /** Key in the store of the identifiers that were sought. */
  readonly sought: string;
  readonly found: readonly Found[];
}

/**
 * What a search for these identifiers finds in documents, if they were searched for all of them before. Where some that
 * were found would have to be left out, or put in their place among others, nothing is known.
 */
export function recallFound({ sought, documents }: Suspect, bench: Workbench): Found[] | null {
  const searched = documents === null ? null : searchedFor(documents, bench);
  if (!searched) return null;
  if (searched.sought === sought) return [...searched.found];
  return namesNobody(searched) && soughtBefore(searched, sought, bench)?.missing.length === 0
    ? [...searched.found]
    : null;
}

export const searchedFor = (documents: string, bench: Workbench): Searched | null =>
  bench.store.value(searchedKey(documents, bench));

export const namesNobody = ({ found }: Searched): boolean =>
  found.every(({ kind }) => kind !== 'identifier');

/** What is sought now, held against what was sought before. */
interface Compared {
  /** Sought now and not then. */
  readonly missing: readonly Identifier[];
  /** Either: what a record that cannot be read hides for one build was sought all the same. */
  readonly all: () => readonly Identifier[];
}

/** Null where it is no longer known what was sought. */
export function soughtBefore(
  { sought: then }: Searched,
  now: string,
  { store }: Workbench,
): Compared | null {
  const key = `${then} ${now}`;
  const kept = compared.get(key);
  if (kept) return kept;
  const [before, after] = [then, now].map((list) => store.value<readonly Identifier[]>(list));
  if (!before || !after) return null;
  // By what is sought: of whom it is, plays no part where nothing is found.
  const known = new Set(before.map(({ text }) => text));
  const missing = after.filter(({ text }) => !known.has(text));
  const one = { missing, all: () => [...before, ...missing] };
  const [oldest] = compared.keys();
  if (compared.size >= MOST_COMPARED) compared.delete(oldest as string);
  compared.set(key, one);
  return one;
}

/** Most documents were searched for the same: the last comparisons are kept. Not a clinical number. */
const MOST_COMPARED = 4;
const compared = new Map<string, Compared>();

export const searchedKey = (documents: string, { digest }: Workbench): string =>
  digestOf('what was found', digest, documents);
