import type { CaseFacts } from '../../facts/case-facts.js';
import { type Identifier, identifiersOf } from '../../privacy/identifiers.js';
import type { Telling } from '../../privacy/passages.js';
import { traitsOf } from '../../privacy/public-facts.js';
import type { Traits } from '../../privacy/small-groups.js';
import { good, type Outcome, type Problem, type Warning } from '../../record/problem.js';
import type { Language } from '../../words/language.js';
import { type Claims, claimsOf } from '../claims.js';
import { clearCase } from '../clear-case.js';
import { type LoadedCase, loadCase } from '../load-case.js';
import { type CaseReading, readingOf } from '../reading.js';
import { settled } from '../settled.js';
import { digestOf } from '../store/digest.js';
import { remembered } from '../store/remembered.js';
import type { UnreadCase } from '../unread.js';
import { asSurvey, surveySeed } from './recall.js';
import type { Workbench } from './workbench.js';

/** What decides, over all cases, how much of each may be public. */
export interface Known extends Claims {
  readonly consent: CaseFacts['consent'];
  readonly traits: Traits;
  readonly identifiers: readonly Identifier[];
  /** Whether its author's words may be public; null where nothing of the case is to be published. */
  readonly cleared: boolean | null;
  /** Where they tell what small groups may withhold; null where they may not be public. */
  readonly telling: Telling | null;
}

/** What a build must know of every case before it prints the first. Plain data. */
export interface Surveyed extends Known {
  /** Key in the store of the case as it was read. */
  readonly loaded: string;
  readonly warnings: readonly Warning[];
  readonly reading: CaseReading;
  /** How many names in its author's words gave way to neutral ones. */
  readonly replaced: number;
  /** What its author has to decide before anything of it can be public. */
  readonly undecided: readonly Problem[];
}

export type Survey =
  | { readonly ok: true; readonly value: Surveyed }
  | { readonly ok: false; readonly value: UnreadCase };

/** Reads a case into the store; again where its files change meanwhile. */
export function survey(folder: string, bench: Workbench): Survey {
  const { collection, store, effects } = bench;
  const { clinic, content, formulary } = collection;
  const outcome = settled(effects, (still) =>
    remembered(store, surveySeed(folder, bench), still, (noted): Outcome<Surveyed> => {
      const loaded = loadCase(folder, clinic, content.keys, noted, formulary);
      return loaded.ok ? good(surveyed(loaded.value, bench)) : loaded;
    }),
  );
  return asSurvey(outcome, folder, bench);
}

/** Key of a case as it was read: of what it says, as the engine may keep the same value in more than one way. */
export const loadedKey = (one: LoadedCase, { digest }: Workbench): string =>
  digestOf(
    'case',
    digest,
    JSON.stringify(one, (_, part: unknown) => {
      if (ArrayBuffer.isView(part)) {
        return digestOf(new Uint8Array(part.buffer, part.byteOffset, part.byteLength));
      }
      return part instanceof Map ? [...part] : part;
    }),
  );

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
    cleared: cleared?.ok ?? null,
    telling: cleared?.ok ? cleared.value.telling : null,
    replaced: cleared?.ok ? cleared.value.replaced : 0,
    undecided: cleared && !cleared.ok ? cleared.problems : [],
  };
}
