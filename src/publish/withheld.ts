import type { Told } from '../privacy/small-groups.js';
import type { Known } from './steps/survey.js';

/** What must not stand in the public tree. */
export interface Withheld {
  /** Beginning of its path in the tree. */
  readonly start: string;
  /** What such a file would be, for a problem. */
  readonly what: string;
  /** What forbids it. */
  readonly because: string;
}

/** What decides, beside consent and its author, whether a case is public. */
export interface Decided {
  readonly told: Told | null;
  readonly isPrintable: boolean;
}

/**
 * Everything that a build has decided to keep back of a case. It is worked out from the decisions alone and not from
 * what was printed, so that a document which slips through is seen.
 */
export function withheldOf(
  { address, consent, cleared }: Pick<Known, 'address' | 'consent' | 'cleared'>,
  decided: Decided,
): Withheld[] {
  if (address === null) return [];
  const because = wholeCase(cleared, decided);
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

/** Tells of a path in the public tree whether it was kept back. */
export function strayFinder(withheld: readonly Withheld[]): (path: string) => Withheld | undefined {
  const byAddress = new Map<string, Withheld[]>();
  for (const one of withheld) {
    const address = one.start.slice(0, one.start.indexOf('/'));
    byAddress.set(address, [...(byAddress.get(address) ?? []), one]);
  }
  return (path) =>
    byAddress.get(path.slice(0, path.indexOf('/')))?.find(({ start }) => path.startsWith(start));
}

/** Whatever in a file looks like a way to a case from the top of the tree, each way once. */
export function linksIn(bytes: Uint8Array): string[] {
  const text = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString('latin1');
  return [
    ...new Set(
      [...text.matchAll(/(?:"|\.\.\/)([a-z\d]+(?:-[a-z\d]+)*\/[\w.-]{0,60})/g)].map(
        ([, to]) => to as string,
      ),
    ),
  ];
}

const DOCUMENTS = ['teaching', 'record'] as const;

/** Beginnings of the names of what stands beside a record: see `pack/pack.ts`. */
const PACK = ['vitals.csv', 'ecg_', 'questions.txt'] as const;

/** Why nothing of a case may be public; null where consent decides file by file. */
function wholeCase(cleared: Known['cleared'], { told, isPrintable }: Decided): string | null {
  if (cleared === false) return 'its author has not decided on a passage';
  if (!isPrintable) return 'the case cannot be printed';
  if (cleared && told === null) return 'too few other cases tell the same of their patients';
  return null;
}
