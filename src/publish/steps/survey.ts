import { serialize } from 'node:v8';
import type { CaseFacts } from '../../facts/case-facts.js';
import { type Identifier, identifiersOf } from '../../privacy/identifiers.js';
import { traitsOf } from '../../privacy/public-facts.js';
import type { Traits } from '../../privacy/small-groups.js';
import { good, type Outcome, type Warning } from '../../record/problem.js';
import type { Language } from '../../words/language.js';
import { clearCase } from '../clear-case.js';
import { type Claims, claimsOf, type UnreadCase, unread } from '../load.js';
import { type LoadedCase, loadCase } from '../load-case.js';
import { type CaseReading, readingOf } from '../reading.js';
import { settled } from '../settled.js';
import { digestOf } from '../store/digest.js';
import { remembered } from '../store/remembered.js';
import type { Workbench } from './workbench.js';

/** What a build must know of every case before it prints the first. Plain data. */
export interface Surveyed extends Claims {
  /** Key in the store of the case as it was read. */
  readonly loaded: string;
  readonly consent: CaseFacts['consent'];
  readonly traits: Traits;
  readonly identifiers: readonly Identifier[];
  readonly warnings: readonly Warning[];
  readonly reading: CaseReading;
  /** How many names in its author's words gave way to neutral ones, or what has to be decided first; null where nothing is published. */
  readonly cleared: Outcome<number> | null;
}

export type Survey =
  | { readonly ok: true; readonly value: Surveyed }
  | { readonly ok: false; readonly value: UnreadCase };

/** Reads a case into the store, or finds there that it was read before; again where its files change meanwhile. */
export function survey(folder: string, bench: Workbench): Survey {
  const { collection, store, effects } = bench;
  const { clinic, content, formulary } = collection;
  const outcome = settled(effects, (still) =>
    remembered(store, digestOf(bench.digest, folder), still, (noted): Outcome<Surveyed> => {
      const loaded = loadCase(folder, clinic, content.keys, noted, formulary);
      return loaded.ok ? good(surveyed(loaded.value, bench)) : loaded;
    }),
  );
  if (!outcome.ok) return { ok: false, value: unread(folder, outcome.problems, effects) };
  return outcome;
}

/** Key of a case as it was read. */
export const loadedKey = (one: LoadedCase, { digest }: Workbench): string =>
  digestOf('case', digest, serialize(one));

function surveyed(one: LoadedCase, bench: Workbench): Surveyed {
  const { collection, store } = bench;
  const { facts, beside } = one;
  const { clinic, content } = collection;
  const loaded = loadedKey(one, bench);
  store.keepValue(loaded, one);
  const claims = claimsOf(one);
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  const cleared = claims.isPublished ? clearCase(one, learner) : null;
  return {
    ...claims,
    loaded,
    consent: facts.consent,
    traits: traitsOf(facts, clinic.region ?? null),
    identifiers: identifiersOf(facts, beside),
    warnings: facts.warnings,
    reading: readingOf(one, content),
    cleared: cleared?.ok ? good(cleared.value.replaced) : cleared,
  };
}
