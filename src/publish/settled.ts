import { bad, type Outcome, type Problem } from '../record/problem.js';
import type { Effects } from './effects.js';

/** A file that is saved over and over while it is read is given up after so many tries. Not a clinical number. */
const TRIES = 5;

/**
 * Reads something that takes several files, again where one of them has changed meanwhile: half of an old case and half
 * of a new one would be a case that nobody wrote.
 */
export function settled<T>(effects: Effects, read: (effects: Effects) => Outcome<T>): Outcome<T> {
  let changed: string | undefined;
  for (let attempt = 0; attempt < TRIES; attempt++) {
    const stamps = new Map<string, string | null>();
    const seen = (path: string) => {
      if (!stamps.has(path)) stamps.set(path, effects.stamp(path));
    };
    const outcome = read({
      ...effects,
      readBytes: (path) => {
        seen(path);
        return effects.readBytes(path);
      },
      exists: (path) => {
        seen(path);
        return effects.exists(path);
      },
    });
    changed = [...stamps].find(([path, stamp]) => effects.stamp(path) !== stamp)?.[0];
    if (changed === undefined) return outcome;
  }
  return bad(changing(changed as string));
}

export const changing = (file: string): Problem => ({
  kind: 'a file that keeps changing',
  file,
  found: 'a file that keeps changing while it is read',
  expected: 'a file that stays as it is for a moment',
  mend: 'Wait until it is saved or copied, and run the command again.',
});
