import type { Cleared } from '../privacy/passages.js';
import type { Grouped } from '../privacy/small-groups.js';
import type { Outcome } from '../record/problem.js';
import type { LoadedCase } from './load-case.js';

/** What must not stand in the public tree. */
export interface Withheld {
  /** Beginning of its path in the tree. */
  readonly start: string;
  /** What such a file would be, for a problem. */
  readonly what: string;
  /** What forbids it. */
  readonly because: string;
}

/** What decides, beside consent, whether a case is public. */
export interface Decided {
  /** By name, for each case with consent. */
  readonly cleared: ReadonlyMap<string, Outcome<Cleared>>;
  readonly groups: ReadonlyMap<string, Grouped>;
  /** Names of cases that could not be printed. */
  readonly unprintable: readonly string[];
}

/**
 * Everything that a build has decided to keep back. It is worked out from the decisions alone and not from what was
 * printed, so that a document which slips through is seen.
 */
export function withheldOf({ name, facts }: LoadedCase, decided: Decided): Withheld[] {
  const { consent, published } = facts;
  if (published === null) return [];
  const { address } = published;
  const because = wholeCase(name, decided);
  // Two cases never share an address: see `load.ts`.
  if (because !== null) return [{ start: `${address}/`, what: 'a file of a case', because }];
  const unconsented = (start: string, what: string): Withheld => ({
    start: `${address}/${start}`,
    what,
    because: 'its owner has not consented to it',
  });
  return [
    ...(['teaching', 'record'] as const)
      .filter((document) => !consent[document].allows)
      .map((document) => unconsented(document, 'a document')),
    ...(consent.record.allows ? [] : PACK.map((file) => unconsented(file, 'a file of the record'))),
    ...(consent.photos.allows
      ? []
      : DOCUMENTS.map((document) => unconsented(`${document}-photo`, 'a photo'))),
  ];
}

const DOCUMENTS = ['teaching', 'record'] as const;

/** Beginnings of the names of what stands beside a record: see `pack/pack.ts`. */
const PACK = ['vitals.csv', 'ecg_', 'questions.txt'] as const;

/** Why nothing of a case may be public; null where consent decides file by file. */
function wholeCase(name: string, { cleared, groups, unprintable }: Decided): string | null {
  const words = cleared.get(name);
  if (words && !words.ok) return 'its author has not decided on a passage';
  if (unprintable.includes(name)) return 'the case cannot be printed';
  if (words && (groups.get(name)?.told ?? null) === null) {
    return 'too few other cases tell the same of their patients';
  }
  return null;
}
