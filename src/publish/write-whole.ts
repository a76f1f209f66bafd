import { renameSync, rmSync, writeFileSync } from 'node:fs';
import { bad, good, type Outcome } from '../record/problem.js';

/** Writes a file beside its name and then puts it in place, so that what stood there stays whole until then. */
export function writeWhole(path: string, bytes: Uint8Array): Outcome<null> {
  const draft = `${path}.thrice-draft`;
  try {
    writeFileSync(draft, bytes);
    renameSync(draft, path);
    return good(null);
  } catch (error) {
    rmSync(draft, { force: true });
    return bad({
      file: path,
      found: `a place that cannot be written (${(error as NodeJS.ErrnoException).code})`,
      expected: 'a file that can be made',
      mend: 'Name another file, or check who may write there.',
    });
  }
}
