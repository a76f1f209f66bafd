import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import type { Identifier } from '../privacy/identifiers.js';
import { proofFor } from '../privacy/proof.js';
import type { Problem } from '../record/problem.js';
import { ownTexts, ownWords } from './own-words.js';
import type { Withheld } from './withheld.js';

/**
 * Searches every byte of everything public for the identifiers of every case: names of files and folders, and contents
 * whatever they are wrapped in. One hit is a problem that stops the build, and so is a file that cannot be searched.
 * @param withheld what was decided to stay out: a file at such a path is a problem, and so is a page that leads there
 */
export function searchPublic(
  folder: string,
  identifiers: readonly Identifier[],
  withheld: readonly Withheld[] = [],
): Problem[] {
  const problemsOf = proofFor(identifiers, ownWords());
  const pages = ownTexts();
  return readdirSync(folder, { withFileTypes: true, recursive: true }).flatMap(
    (entry): Problem[] => {
      const whole = join(entry.parentPath, entry.name);
      const path = relative(folder, whole).split(sep).join('/');
      const file = join('public', path);
      const slipped = withheld.find(({ start }) => `${path}/`.startsWith(start));
      if (slipped) return [keptBack(file, slipped)];
      if (entry.isDirectory()) return problemsOf({ file, path, bytes: new Uint8Array() });
      if (entry.isFile()) {
        const bytes = readFileSync(whole);
        const leads = withheld.filter(({ start }) =>
          [`"${start}`, `../${start}`].some((link) => bytes.includes(link)),
        );
        return [
          ...leads.map((one) => keptBack(file, { ...one, what: `a link to ${one.what}` })),
          ...problemsOf({ file, path, bytes, ownText: pages.get(path) }),
        ];
      }
      return [
        {
          kind: 'a public file that must not be there',
          file,
          found: 'a link, or something else that is neither a file nor a folder',
          expected: 'only files and folders in what is published',
          mend: 'Nothing in a record should lead to this: please report it.',
        },
      ];
    },
  );
}

const keptBack = (file: string, { what, because }: Withheld): Problem => ({
  kind: 'a public file that must not be there',
  file,
  found: `${what} that must not be public: ${because}`,
  expected: 'nothing public that was kept back',
  mend: 'Nothing in a record should lead to this: please report it.',
});
