import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import type { Identifier } from '../privacy/identifiers.js';
import { proofFor } from '../privacy/proof.js';
import type { Problem } from '../record/problem.js';
import { ownTexts, ownWords } from './own-words.js';

/**
 * Searches every byte of everything public for the identifiers of every case: names of files and folders, and contents
 * whatever they are wrapped in. One hit is a problem that stops the build, and so is a file that cannot be searched.
 * @param withheld beginnings of the paths of documents that nobody has consented to
 */
export function searchPublic(
  folder: string,
  identifiers: readonly Identifier[],
  withheld: readonly string[] = [],
): Problem[] {
  const problemsOf = proofFor(identifiers, ownWords());
  const pages = ownTexts();
  return readdirSync(folder, { withFileTypes: true, recursive: true }).flatMap(
    (entry): Problem[] => {
      const whole = join(entry.parentPath, entry.name);
      const path = relative(folder, whole);
      const file = join('public', path);
      const own = withheld.find((start) => path.startsWith(start));
      if (own !== undefined) return [unconsented(file)];
      if (entry.isDirectory()) return problemsOf({ file, path, bytes: new Uint8Array() });
      if (entry.isFile()) {
        return problemsOf({ file, path, bytes: readFileSync(whole), ownText: pages.get(path) });
      }
      return [
        {
          file,
          found: 'a link, or something else that is neither a file nor a folder',
          expected: 'only files and folders in what is published',
          mend: 'Nothing in a record should lead to this: please report it.',
        },
      ];
    },
  );
}

const unconsented = (file: string): Problem => ({
  file,
  found: 'a document that its owner has not consented to',
  expected: 'nothing public without consent',
  mend: 'Nothing in a record should lead to this: please report it.',
});
