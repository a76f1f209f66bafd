import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { identifiersOf } from '../privacy/identifiers.js';
import { leaksIn } from '../privacy/leaks.js';
import type { Problem } from '../record/problem.js';
import { textOf } from '../words/handout-text.js';
import type { LoadedCase } from './load-case.js';
import type { PrintedCase } from './print-case.js';

/** Files of the public tree that hold text. */
const TEXT = /\.(html|css|svg|json|csv|txt|xml)$/;

/**
 * Searches everything public for the identifiers of every case: file names, the text of every page, and the text that
 * went into every PDF. One hit is a problem that stops the build.
 */
export function searchPublic(
  folder: string,
  cases: readonly LoadedCase[],
  printed: readonly PrintedCase[],
): Problem[] {
  const identifiers = cases.flatMap(({ facts }) => identifiersOf(facts));
  const texts = [
    ...filesIn(folder).map((path) => ({
      file: join('public', relative(folder, path)),
      text: `${relative(folder, path)} ${TEXT.test(path) ? readFileSync(path, 'utf8') : ''}`,
    })),
    ...printed.flatMap(({ teaching, record }) =>
      [teaching, record].flatMap((document) =>
        document
          ? [
              {
                file: `public/${document.address}.pdf`,
                text: [
                  document.handout.title,
                  document.handout.lead,
                  textOf(document.handout.blocks),
                ].join('\n'),
              },
            ]
          : [],
      ),
    ),
  ];
  return texts.flatMap(({ file, text }) =>
    leaksIn(text, identifiers).map((leak) => ({
      file,
      found: `${leak.what} in "…${leak.around}…"`,
      expected: 'no identifier of any case in a public file',
      mend: 'Reword the remark, the event note, the reason or the title that it comes from.',
    })),
  );
}

function filesIn(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}
