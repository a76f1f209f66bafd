import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Identifier } from '../../privacy/identifiers.js';
import { type Proof, proofFor } from '../../privacy/proof.js';
import type { Problem } from '../../record/problem.js';
import { ownTexts, ownWords } from '../own-words.js';
import { FILES, type Site } from '../site/site.js';
import { digestOf } from '../store/digest.js';
import { strayFinder, type Withheld } from '../withheld.js';
import type { Workbench } from './workbench.js';

/** What nothing public may hold: identifiers, and what was decided to stay out. Plain data. */
export interface Forbidden {
  readonly identifiers: readonly Identifier[];
  readonly withheld: readonly Withheld[];
}

/** A part of the public tree. Plain data. */
export interface Suspect {
  /** The public tree. */
  readonly folder: string;
  /** What stands there, as paths from the tree with `/`. */
  readonly entries: readonly { readonly path: string; readonly is: 'file' | 'folder' | 'other' }[];
  /** Key of the documents that these files are; null where they are not out of the store. */
  readonly documents: string | null;
  /** Key in the store of what is forbidden. */
  readonly forbidden: string;
}

/**
 * Searches every byte of a part of the public tree: names of files and folders, and contents whatever they are wrapped
 * in. One hit is a problem, and so is what cannot be searched. Documents in which nothing was found are not searched
 * for the same again.
 */
export function prove(
  { folder, entries, documents, forbidden }: Suspect,
  bench: Workbench,
): Problem[] {
  const { store } = bench;
  const memo = (...of: string[]) => digestOf('nothing found', bench.digest, forbidden, ...of);
  if (documents !== null && store.value<true>(memo(documents))) return [];
  const { identifiers, withheld } = store.value<Forbidden>(forbidden) as Forbidden;
  const { problemsOf, texts } = prover(forbidden, identifiers, bench.site);
  const strays = strayFinder(withheld);
  const problems = entries.flatMap(({ path, is }): Problem[] => {
    const file = join('public', path);
    if (is === 'other') {
      return [
        {
          kind: 'a public file that must not be there',
          file,
          found: 'a link, or something else that is neither a file nor a folder',
          expected: 'only files and folders in what is published',
          mend: 'Nothing in a record should lead to this: please report it.',
        },
      ];
    }
    const slipped = strays.file(path);
    if (slipped) return [keptBack(file, slipped)];
    if (is === 'folder') return problemsOf({ file, path, bytes: new Uint8Array() });
    const bytes = readFileSync(join(folder, path));
    return [
      ...strays
        .links(bytes)
        .map((one) => keptBack(file, { ...one, what: `a link to ${one.what}` })),
      ...problemsOf({ file, path, bytes, ownText: texts.get(path) }),
    ];
  });
  if (documents !== null && problems.length === 0) store.keepValue(memo(documents), true);
  return problems;
}

/** A search takes a moment to prepare: the last one is kept. */
let last: { forbidden: string; problemsOf: Proof; texts: Map<string, Uint8Array> } | undefined;

function prover(forbidden: string, identifiers: readonly Identifier[], { issued }: Site) {
  if (last?.forbidden !== forbidden) {
    const texts = ownTexts();
    // The day that the clinic states for the whole site may well be a day of some case.
    if (issued !== null) texts.set(FILES.feed, Buffer.from(issued));
    last = { forbidden, problemsOf: proofFor(identifiers, ownWords()), texts };
  }
  return last;
}

const keptBack = (file: string, { what, because }: Withheld): Problem => ({
  kind: 'a public file that must not be there',
  file,
  found: `${what} that must not be public: ${because}`,
  expected: 'nothing public that was kept back',
  mend: 'Nothing in a record should lead to this: please report it.',
});
