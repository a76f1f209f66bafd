import { bad, type Outcome } from '../record/problem.js';

/** What the disk may refuse while an output is written, and what to do about it. */
const REFUSALS: Readonly<Record<string, readonly [found: string, mend: string]>> = {
  ENOSPC: ['a disk with no room left', 'Make room, or name a folder on another disk with --out.'],
  EDQUOT: ['a disk quota that is used up', 'Make room, or name another folder with --out.'],
  EFBIG: ['a file larger than may be written here', 'Raise the limit, or name another disk.'],
  EROFS: ['a disk that cannot be written', 'Name a folder on another disk with --out.'],
  EACCES: ['a folder that may not be written', 'Check who may write there.'],
  EPERM: ['a folder that may not be written', 'Check who may write there.'],
  EIO: ['a disk that reports an error', 'Check the disk, and keep a copy of the cases elsewhere.'],
};

/** A problem of the output for a refusal of the disk, however deep the error lies; null for anything else, which is a bug. */
export function noRoom(error: unknown, out: string): Outcome<never> | null {
  for (let one = error, depth = 0; one instanceof Error && depth < 9; depth++) {
    const { code, cause, originalError } = one as NodeJS.ErrnoException & {
      originalError?: unknown;
    };
    const refusal = code === undefined ? undefined : REFUSALS[code];
    if (refusal) {
      return bad({
        kind: 'no room',
        file: out,
        found: `${refusal[0]} (${code})`,
        expected: 'a place for the whole output',
        mend: `${refusal[1]} The last output stands as it was.`,
      });
    }
    one = cause ?? originalError;
  }
  return null;
}
