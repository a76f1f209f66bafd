import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { bad, good, type Outcome } from '../record/problem.js';

/** Names a folder as one that a build may replace as a whole. */
const MARKER = '.thrice-output';

/** A new output that stays invisible until it is whole. */
export interface Draft {
  readonly folder: string;
  /** Puts it in the place of the last output. */
  readonly publish: () => void;
  readonly discard: () => void;
}

/**
 * Opens a folder beside the output, on the same file system, so that publishing is two renames. The last output stays
 * whole until then. A folder that no build has made is never replaced.
 */
export function openDraft(out: string): Outcome<Draft> {
  const target = resolve(out);
  if (existsSync(target) && !isReplaceable(target)) {
    return bad({
      file: out,
      found: statSync(target).isDirectory() ? 'a folder with other things in it' : 'a file',
      expected: 'a new folder, an empty one, or the output of an earlier build',
      mend: 'Name another folder with --out.',
    });
  }
  const parent = dirname(target);
  const beside = (kind: string) => join(parent, `.thrice-${kind}-${basename(target)}-`);
  try {
    mkdirSync(parent, { recursive: true });
    const folder = mkdtempSync(beside('draft'));
    writeFileSync(
      join(folder, MARKER),
      'Made by a build and replaced by the next one. Keep nothing of your own here.\n',
    );
    return good({
      folder,
      publish: () => {
        const last = mkdtempSync(beside('last'));
        const old = join(last, 'out');
        try {
          if (existsSync(target)) renameSync(target, old);
          renameSync(folder, target);
        } catch (error) {
          if (existsSync(old) && !existsSync(target)) renameSync(old, target);
          throw error;
        } finally {
          rmSync(last, { recursive: true, force: true });
        }
      },
      discard: () => rmSync(folder, { recursive: true, force: true }),
    });
  } catch (error) {
    return bad({
      file: out,
      found: `a place that cannot be written (${(error as NodeJS.ErrnoException).code})`,
      expected: 'a folder that can be made',
      mend: 'Name another folder with --out, or check who may write there.',
    });
  }
}

function isReplaceable(folder: string): boolean {
  try {
    return existsSync(join(folder, MARKER)) || readdirSync(folder).length === 0;
  } catch {
    return false;
  }
}
