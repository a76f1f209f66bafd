import type { Outcome } from '../../record/problem.js';
import type { Effects } from '../effects.js';
import { digestOf } from './digest.js';
import type { Store } from './store.js';

/** How a file was when something was read that depends on it. */
type Dependence =
  | { readonly path: string; readonly how: 'read'; readonly state: string }
  | { readonly path: string; readonly how: 'looked for'; readonly state: string };

/**
 * What reading gave before, where every file that was read or looked for is as it was; null else. Which files these are
 * may depend on what is in them, so the last reading tells.
 * @param seed digest of all else that the result depends on
 */
export function recalled<T>(store: Store, seed: string, effects: Effects): Outcome<T> | null {
  const known = store.value<readonly Dependence[]>(listKey(seed));
  if (!known) return null;
  const now = known.map(({ path, how }) => ({ path, how, state: stateOf(effects, path, how) }));
  return store.value<Outcome<T>>(resultKey(seed, now));
}

/** Reads something, and keeps what came of it with the files that it depends on, for `recalled`. */
export function remembered<T>(
  store: Store,
  seed: string,
  effects: Effects,
  read: (effects: Effects) => Outcome<T>,
): Outcome<T> {
  const seen = new Map<string, Dependence>();
  const note = (one: Dependence) => seen.set(`${one.how} ${one.path}`, one);
  const outcome = read({
    ...effects,
    readBytes: (path) => {
      const bytes = effects.readBytes(path);
      note({ path, how: 'read', state: stateOfBytes(bytes) });
      return bytes;
    },
    exists: (path) => {
      const exists = effects.exists(path);
      note({ path, how: 'looked for', state: `${exists}` });
      return exists;
    },
  });
  const dependences = [...seen.values()];
  store.keepValue(resultKey(seed, dependences), outcome);
  store.keepValue(listKey(seed), dependences);
  return outcome;
}

const listKey = (seed: string): string => digestOf('files that were read', seed);

const resultKey = (seed: string, dependences: readonly Dependence[]): string =>
  digestOf('what was read', seed, JSON.stringify(dependences));

const stateOf = (effects: Effects, path: string, how: Dependence['how']): string =>
  how === 'read' ? stateOfBytes(effects.readBytes(path)) : `${effects.exists(path)}`;

const stateOfBytes = (bytes: Outcome<Uint8Array>): string =>
  bytes.ok ? digestOf(bytes.value) : JSON.stringify(bytes.problems);
