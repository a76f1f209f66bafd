// Choices of the method and codes of file formats: not clinical numbers.

import { createHash } from 'node:crypto';
import type { Problem } from '../record/problem.js';
import { opened } from './bytes/open.js';
import { utf8 } from './bytes/piece.js';
import type { Identifier } from './identifiers.js';
import { readableAround } from './leaks.js';
import type { OwnText } from './own-text.js';
import { type Sought, searchFor } from './search/search.js';

/** What is wrong with one public file: each identifier once, where it is first found, and whatever cannot be searched. */
export type Proof = (file: PublicFile) => Finding[];

interface Finding {
  readonly problem: Problem;
  /** Which identifier was found; null for what cannot be searched. */
  readonly identifier: Identifier | null;
}

/** A file of the public tree, as it is searched. */
export interface PublicFile {
  /** Path in a message. */
  readonly file: string;
  /** Path in the public tree: it is searched too. */
  readonly path: string;
  readonly bytes: Uint8Array;
  /** What a page that no case has a part in was made of; what stands there is no leak. */
  readonly ownText?: Uint8Array | undefined;
}

/**
 * Prepares the search that nothing public may fail. What it tells of a file depends on nothing but what is given here, the
 * file's paths, its bytes and the text of its own: files may be searched in any order, and in several threads.
 * @param texts what pages print of themselves: see `searchFor`
 */
export function proofFor(sought: Sought, texts: OwnText): Proof {
  const search = searchFor(sought, texts);
  // Digests of files in which nothing was found.
  const clean = new Set<string>();

  return ({ file, path, bytes, ownText }) => {
    const found = new Map<Identifier, Problem>();
    for (const { identifier } of search(plainText(utf8(path)))) {
      found.set(identifier, {
        kind: 'an identifier in a public file',
        file,
        found: `${identifier.what} in the name of the file or its folder`,
        expected: EXPECTED,
        mend: MEND,
      });
    }
    const own = new Set(ownText && search(plainText(ownText)).map(({ identifier }) => identifier));
    // A picture may be published twice. What stands in a file depends on nothing but its bytes.
    const digest = createHash('sha256').update(bytes).digest('base64');
    const findings = (): Finding[] =>
      [...found].map(([identifier, problem]) => ({ identifier, problem }));
    if (clean.has(digest)) return findings();
    const { pieces, obstacles } = opened(bytes);
    let hits = 0;
    for (const piece of pieces) {
      for (const { identifier, start, end, encoding } of search(piece)) {
        hits++;
        if (found.has(identifier) || own.has(identifier)) continue;
        const ways = [...piece.within, ...(encoding === 'UTF-8' ? [] : [encoding])];
        const around = readableAround(piece.bytes, start, end);
        found.set(identifier, {
          kind: 'an identifier in a public file',
          file,
          byte: piece.at(start),
          found: `${identifier.what} in "…${around}…"${ways.length > 0 ? ` (${ways.join(', ')})` : ''}`,
          expected: EXPECTED,
          mend: mendOf(identifier, texts),
        });
      }
    }
    if (hits + obstacles.length === 0 && clean.size < MOST_REMEMBERED) clean.add(digest);
    return [
      ...findings(),
      ...obstacles.map(
        ({ within, byte, found: what }): Finding => ({
          identifier: null,
          problem: {
            kind: 'a public file that cannot be searched',
            file,
            byte,
            found: within.length > 0 ? `${what} (${within.join(', ')})` : what,
            expected: 'only what can be searched for identifiers',
            mend: 'Nothing in a record should lead to this: please report it.',
          },
        }),
      ),
    ];
  };
}

/** Some ten megabytes of digests. */
const MOST_REMEMBERED = 100_000;

const plainText = (bytes: Uint8Array) => ({ bytes, sort: 'text', wide: false }) as const;

const EXPECTED = 'no identifier of any case in a public file';
const MEND =
  'Reword the remark, the event note, the reason, the title or the address that it comes from; where every page has it, the region or a reason in clinic.yaml.';

/** A word of our own text may be meant as that: then no author can do anything about it but know it. */
function mendOf({ text }: Identifier, texts: OwnText): string {
  const place = /^[\p{L}\p{M}]+$/u.test(text) ? texts.placeOf(text) : null;
  return place === null
    ? MEND
    : `${MEND} "${text}" is a word of our own texts as well (${place}): where the passage is theirs and not a record's, reword it there.`;
}
