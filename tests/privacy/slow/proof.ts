// Choices of the method and codes of file formats: not clinical numbers.

import type { Identifier } from '../../../src/privacy/identifiers.js';
import { readableAround } from '../../../src/privacy/leaks.js';
import type { Problem } from '../../../src/record/problem.js';
import { opened } from './open.js';
import { type Piece, utf8 } from './piece.js';
import { type Encoding, type Hit, searchFor } from './search.js';

/** Problems of one public file: each identifier once, where it is first found, and whatever cannot be searched. */
export type Proof = (file: PublicFile) => Problem[];

interface PublicFile {
  /** Path in a message. */
  readonly file: string;
  /** Path in the public tree: it is searched too. */
  readonly path: string;
  readonly bytes: Uint8Array;
  /** What a page that no case has a part in was made of; what stands there is no leak. */
  readonly ownText?: Uint8Array | undefined;
}

const WIDE: readonly (readonly [Encoding, skip: number])[] = [
  ['UTF-16LE', 0],
  ['UTF-16LE', 1],
  ['UTF-16BE', 0],
  ['UTF-16BE', 1],
];

/**
 * Prepares the search that nothing public may fail.
 * @param ordinary words that pages print of themselves: see `searchFor`
 */
export function proofFor(identifiers: readonly Identifier[], ordinary: ReadonlySet<string>): Proof {
  const search = searchFor(identifiers, ordinary);

  /** Everything that stands in a piece, in every encoding. */
  function* hitsIn(piece: Piece): Generator<Hit & { readonly encoding: Encoding }> {
    for (const hit of search(piece)) yield { ...hit, encoding: 'UTF-8' };
    if (!piece.wide) return;
    for (const [encoding, skip] of WIDE) {
      const sort = piece.sort === 'text' ? 'guessed' : 'binary';
      for (const hit of search({ bytes: piece.bytes.subarray(skip), sort }, encoding)) {
        yield { ...hit, start: hit.start + skip, end: hit.end + skip, encoding };
      }
    }
  }

  return ({ file, path, bytes, ownText }) => {
    const found = new Map<Identifier, Problem>();
    for (const { identifier } of search({ bytes: utf8(path), sort: 'text' })) {
      found.set(identifier, {
        kind: 'an identifier in a public file',
        file,
        found: `${identifier.what} in the name of the file or its folder`,
        expected: EXPECTED,
        mend: MEND,
      });
    }
    const own = new Set(
      ownText && search({ bytes: ownText, sort: 'text' }).map(({ identifier }) => identifier),
    );
    const { pieces, obstacles } = opened(bytes);
    for (const piece of pieces) {
      for (const { identifier, start, end, encoding } of hitsIn(piece)) {
        if (found.has(identifier) || own.has(identifier)) continue;
        const ways = [...piece.within, ...(encoding === 'UTF-8' ? [] : [encoding])];
        const around = readableAround(piece.bytes, start, end);
        found.set(identifier, {
          kind: 'an identifier in a public file',
          file,
          byte: piece.at(start),
          found: `${identifier.what} in "…${around}…"${ways.length > 0 ? ` (${ways.join(', ')})` : ''}`,
          expected: EXPECTED,
          mend: MEND,
        });
      }
    }
    return [
      ...found.values(),
      ...obstacles.map(({ within, byte, found: what }) => ({
        kind: 'a public file that cannot be searched' as const,
        file,
        byte,
        found: within.length > 0 ? `${what} (${within.join(', ')})` : what,
        expected: 'only what can be searched for identifiers',
        mend: 'Nothing in a record should lead to this: please report it.',
      })),
    ];
  };
}

const EXPECTED = 'no identifier of any case in a public file';
const MEND =
  'Reword the remark, the event note, the reason, the title or the address that it comes from.';
