import { chmodSync, lstatSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { bad, good, type Outcome } from '../record/problem.js';

/**
 * Writes a file beside its name and then puts it in place, so that what stood there stays whole until then. The draft is
 * its owner's alone, and the file has the rights of the one that it replaces.
 * @param others whether a file that was not there before may be read by others, as far as the user's own mask lets them
 */
export function writeWhole(
  path: string,
  bytes: Uint8Array,
  others: 'may read' | 'may not',
): Outcome<null> {
  const draft = `${path}.thrice-draft`;
  const before = lstatSync(path, { throwIfNoEntry: false });
  // Renaming would put the file in the place of a device or a link.
  if (before && !before.isFile()) {
    return bad({
      kind: 'a name that is taken',
      file: path,
      found: 'something that is no file',
      expected: 'a file, or a name that is free',
      mend: 'Name another file.',
    });
  }
  try {
    const rights = before
      ? before.mode & 0o777
      : others === 'may read'
        ? 0o666 & ~process.umask()
        : 0o600;
    rmSync(draft, { force: true });
    // A new file, and no link that somebody has laid there.
    writeFileSync(draft, bytes, { mode: 0o600, flag: 'wx' });
    chmodSync(draft, rights);
    renameSync(draft, path);
    return good(null);
  } catch (error) {
    rmSync(draft, { force: true });
    return bad({
      kind: 'a place that cannot be written',
      file: path,
      found: `a place that cannot be written (${(error as NodeJS.ErrnoException).code})`,
      expected: 'a file that can be made',
      mend: 'Name another file, or check who may write there.',
    });
  }
}
