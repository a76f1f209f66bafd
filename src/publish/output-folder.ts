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
import { rm } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { bad, good, type Outcome } from '../record/problem.js';
import { isAlive, ownMark } from './process-mark.js';

/** Names a folder as one that a build may replace as a whole. */
const MARKER = '.thrice-output';

/** A new output that stays invisible until it is whole. */
export interface Draft {
  readonly folder: string;
  /** Puts it in the place of the last output, which is then thrown away. */
  readonly publish: () => Promise<void>;
  readonly discard: () => void;
}

/** Another build may publish in the same instant; so often in a row it does not. Not a clinical number. */
const TRIES = 100;

/**
 * Opens a folder beside the output, on the same file system, so that publishing is two renames. The last output stays
 * whole until then. A folder that no build has made is never replaced. What a build that was killed has left behind is
 * put right first.
 */
export function openDraft(out: string): Outcome<Draft> {
  const target = resolve(out);
  const parent = dirname(target);
  const beside = (kind: 'draft' | 'last') => join(parent, `.thrice-${kind}-${basename(target)}-`);
  try {
    putRight(target, basename(beside('draft')), basename(beside('last')));
    if (existsSync(target) && !isReplaceable(target)) {
      return bad({
        kind: 'a folder that is no output',
        file: out,
        found: statSync(target).isDirectory() ? 'a folder with other things in it' : 'a file',
        expected: 'a new folder, an empty one, or the output of an earlier build',
        mend: 'Name another folder with --out.',
      });
    }
    mkdirSync(parent, { recursive: true });
    const folder = mkdtempSync(`${beside('draft')}${ownMark()}-`);
    writeFileSync(
      join(folder, MARKER),
      'Made by a build and replaced by the next one. Keep nothing of your own here.\n',
    );
    return good({
      folder,
      publish: async () => {
        const last = mkdtempSync(`${beside('last')}${ownMark()}-`);
        try {
          exchange(folder, target, last);
        } finally {
          // Only what was replaced is thrown away: an output that could not be, stands at its place. A file system may
          // take its time over each folder, so that many are removed at once.
          await rm(last, { recursive: true, force: true });
        }
      },
      discard: () => rmSync(folder, { recursive: true, force: true }),
    });
  } catch (error) {
    return bad({
      kind: 'a place that cannot be written',
      file: out,
      found: `a place that cannot be written (${(error as NodeJS.ErrnoException).code})`,
      expected: 'a folder that can be made',
      mend: 'Name another folder with --out, or check who may write there.',
    });
  }
}

/** Puts a folder in the place of another, which moves into `last`. */
function exchange(folder: string, target: string, last: string): void {
  for (let attempt = 0; ; attempt++) {
    const old = join(last, `${attempt}`);
    try {
      if (existsSync(target)) renameSync(target, old);
    } catch (error) {
      // Another build has just taken it away.
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
    try {
      renameSync(folder, target);
      return;
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      const another = code === 'ENOTEMPTY' || code === 'EEXIST';
      if (another && attempt < TRIES) continue;
      if (existsSync(old) && !existsSync(target)) renameSync(old, target);
      throw error;
    }
  }
}

/**
 * After a build that was killed: an output that it had moved aside goes back, and its draft, which may hold private
 * sheets, goes away. Folders of builds that still run are left alone.
 */
function putRight(target: string, draft: string, last: string): void {
  const parent = dirname(target);
  if (!existsSync(parent)) return;
  for (const name of readdirSync(parent)) {
    const start = [draft, last].find((one) => name.startsWith(one));
    if (start === undefined || isAlive(name.slice(start.length))) continue;
    const left = join(parent, name);
    if (start === last && !existsSync(target)) {
      const newest = readdirSync(left).sort((a, b) => Number(b) - Number(a))[0];
      if (newest !== undefined) renameSync(join(left, newest), target);
    }
    rmSync(left, { recursive: true, force: true });
  }
}

function isReplaceable(folder: string): boolean {
  try {
    return existsSync(join(folder, MARKER)) || readdirSync(folder).length === 0;
  } catch {
    return false;
  }
}
