import { randomBytes } from 'node:crypto';
import { AS_WRITTEN } from '../privacy/passages.js';
import type { Grouped, Told } from '../privacy/small-groups.js';
import { type Veil, veilOf } from '../privacy/veil.js';
import { clearCase } from '../publish/clear-case.js';
import { isPublished } from '../publish/is-published.js';
import type { LoadedCase } from '../publish/load-case.js';
import { keyedHash } from '../publish/pseudonym-key.js';
import type { Problem } from '../record/problem.js';
import type { Language } from '../words/language.js';
import type { Ground } from './ground.js';

/** What stands before a case in the preview of its public pages. */
export interface PreviewVeil {
  /** Null where the record publishes nothing, so that there are no such pages. */
  readonly veil: Veil | null;
  /** Why a build would keep the pages back; empty where it would publish them. */
  readonly kept: readonly string[];
  /** Passages that have to be decided first. */
  readonly undecided: readonly Problem[];
}

/** Stands in for a clinic's key, for this run alone: nothing that it gives is published. */
const standIn = keyedHash(randomBytes(32).toString('hex'));

/** A case that is published with no others. */
export const STANDS_APART: Grouped = { told: null, group: 0 };

/** What is told where a build would tell nothing: the least that pages can do with. */
const LEAST_TOLD: Told = { breed: null, ageBand: null, sex: false };

/**
 * The veil of a build where a build would have one. Where it would keep the case back, a stand-in, so that authors see
 * their own words on their own machine, with the reason why nobody else will.
 * @param grouped null while other cases have still to be read
 * @param overtold where its words tell what its group withholds
 */
export function previewVeil(
  one: LoadedCase,
  { collection: { clinic, content }, hash }: Ground,
  grouped: Grouped | null,
  overtold: readonly Problem[],
): PreviewVeil {
  if (!isPublished(one)) return { veil: null, kept: [NOTHING], undecided: [] };
  const { learner } = content.languages.get(clinic.languages[0] as string) as Language;
  const cleared = clearCase(one, learner);
  const told = grouped?.told ?? null;
  const least = clinic['small groups']['at least'];
  const kept = [
    ...(hash.ok ? [] : hash.problems.map(({ found }) => `${NO_KEY} (${found})`)),
    ...(cleared.ok ? [] : [UNDECIDED]),
    ...(grouped === null ? [UNKNOWN] : cleared.ok && told === null ? [standsApart(least)] : []),
  ];
  return {
    veil: {
      ...veilOf(one.facts.identity.record, hash.ok ? hash.value : standIn),
      told: told ?? LEAST_TOLD,
      region: clinic.region ?? null,
      say: cleared.ok ? cleared.value.say : AS_WRITTEN,
    },
    kept,
    undecided: cleared.ok ? overtold : cleared.problems,
  };
}

const NOTHING =
  'The record publishes nothing: it has no title for the public, or its owner has consented neither to a teaching page nor to a record.';
const NO_KEY =
  'There is no secret key for pseudonyms, so name and dates of this preview are stand-ins';
const UNDECIDED =
  'Passages of its author have to be decided on. Names in the author’s words are not replaced in this preview.';
const UNKNOWN =
  'Other cases are still being read. Until then this preview tells the least of the patient that can be told.';
const standsApart = (least: number): string =>
  `Too few other cases tell the same of their patients (${least} have to, this one included). This preview tells the least of the patient that can be told.`;
