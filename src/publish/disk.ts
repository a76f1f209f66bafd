import { type Dirent, existsSync, lstatSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { bad, good } from '../record/problem.js';
import type { Refusal } from '../record/refusal.js';
import type { Effects } from './effects.js';
import { tooLarge } from './file-limits.js';

/** The real disk. */
export function disk(progress: (step: string) => void): Effects {
  return {
    readBytes: (path) => {
      try {
        const entry = lstatSync(path);
        if (entry.isSymbolicLink()) return bad({ file: path, ...LINK });
        const large = tooLarge(path, entry.size);
        if (large) return bad(large);
        const { buffer, byteOffset, length } = readFileSync(path);
        // A plain array of bytes: a Buffer turns itself into a list of numbers wherever it is written as JSON.
        return good(new Uint8Array(buffer, byteOffset, length));
      } catch (error) {
        return bad({ file: path, ...reasonOf(error as NodeJS.ErrnoException) });
      }
    },
    folders: (path) => namesIn(path, (entry) => entry.isDirectory()),
    files: (path) => namesIn(path, (entry) => entry.isFile()),
    exists: existsSync,
    stamp: (path) => {
      try {
        const { ino, size, mtimeNs, ctimeNs } = statSync(path, { bigint: true });
        return [ino, size, mtimeNs, ctimeNs].join(' ');
      } catch {
        return null;
      }
    },
    progress,
  };
}

const namesIn = (path: string, wanted: (entry: Dirent) => boolean): string[] =>
  existsSync(path)
    ? readdirSync(path, { withFileTypes: true })
        .filter((entry) => wanted(entry) && !entry.name.startsWith('.'))
        .map((entry) => entry.name)
        .sort()
    : [];

/** A link may lead out of the case folder, to a file that the case has no business with. */
const LINK = {
  kind: 'a link in place of a file',
  found: 'a link to another place',
  expected: 'the file itself',
  mend: 'Copy the file to here in place of the link.',
} as const;

function reasonOf({ code }: NodeJS.ErrnoException): Refusal {
  if (code === 'ENOENT' || code === 'ENOTDIR') {
    return {
      kind: 'no such file',
      found: 'no such file',
      expected: 'a file that can be read',
      mend: 'Check the name, or put the file there.',
    };
  }
  if (code === 'EISDIR') {
    return {
      kind: 'a folder in place of a file',
      found: 'a folder',
      expected: 'a file',
      mend: 'Name the file in it.',
    };
  }
  return {
    kind: 'a file that cannot be read',
    found: `a file that cannot be read (${code})`,
    expected: 'a file that can be read',
    mend: 'Check who may read it.',
  };
}
