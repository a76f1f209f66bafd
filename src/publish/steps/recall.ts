import type { Outcome } from '../../record/problem.js';
import { good } from '../../record/problem.js';
import { unread } from '../load.js';
import { digestOf } from '../store/digest.js';
import { recalled } from '../store/remembered.js';
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

export function recallProduced(order: Order, bench: Workbench): Made | null {
  const { store } = bench;
  const key = producedKey(order, bench);
  const kept = store.value<Produced>(key);
  return kept && store.holds(key, kept.files) ? { outcome: good(kept), isFresh: false } : null;
}

export const producedKey = (order: Order, { digest }: Workbench): string =>
  digestOf('documents', digest, JSON.stringify(order));

export function recallFound({ sought, documents }: Suspect, bench: Workbench): Found[] | null {
  return documents === null ? null : bench.store.value(foundKey(sought, documents, bench));
}

export const foundKey = (sought: string, documents: string, { digest }: Workbench): string =>
  digestOf('what was found', digest, sought, documents);
