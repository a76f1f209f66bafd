import { identifiersOf } from '../../privacy/identifiers.js';
import { traitsOf } from '../../privacy/public-facts.js';
import type { Language } from '../../words/language.js';
import { claimsOf } from '../claims.js';
import { clearCase } from '../clear-case.js';
import { loadCase } from '../load-case.js';
import { settled } from '../settled.js';
import { unread } from '../unread.js';
import type { Known } from './survey.js';
import type { Workbench } from './workbench.js';

/** What all cases must know of each other. Plain data; null where nothing of the case can become public. */
export interface Glance extends Pick<Known, 'identifiers'> {
  readonly known: Omit<Known, 'identifiers'> | null;
}

/**
 * Reads a case without its strips, which take most of the time and tell nothing of who it is. Where a strip cannot be
 * read, or the documents not be printed, this says more than is true, and whoever joins the shards puts it right.
 */
export function glance(folder: string, { collection, effects }: Workbench): Glance {
  const { clinic, content, formulary } = collection;
  const outcome = settled(effects, (still) =>
    loadCase(folder, clinic, content.keys, still, formulary, { extent: 'without strips' }),
  );
  if (!outcome.ok) {
    return { identifiers: unread(folder, outcome.problems, effects).identifiers, known: null };
  }
  const one = outcome.value;
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  const claims = claimsOf(one);
  const cleared = claims.isPublished ? clearCase(one, learner) : null;
  return {
    identifiers: identifiersOf(one.facts, one.beside),
    known: {
      ...claims,
      consent: one.facts.consent,
      traits: traitsOf(one.facts, clinic.region ?? null),
      cleared: cleared?.ok ?? null,
      telling: cleared?.ok ? cleared.value.telling : null,
    },
  };
}
