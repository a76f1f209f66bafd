import type { Outcome } from '../../record/problem.js';
import type { Effects } from '../effects.js';
import { digestOf } from './digest.js';
import type { Store } from './store.js';

/** How a file was when something was read that depends on it. */
type Dependence =
  | { readonly path: string; readonly how: 'read'; readonly state: string }
  | { readonly path: string; readonly how: 'looked for'; readonly state: string };

/**
 * Reads something again only where a file that it read, or looked for, is not as it was. Which files these are may
 * depend on what is in them, so the last reading tells.
 * @param seed digest of all else that the result depends on
 */
export function remembered<T>(
  store: Store,
  seed: string,
  effects: Effects,
  read: (effects: Effects) => Outcome<T>,
): Outcome<T> {
  const list = digestOf('files that were read', seed);
  const known = store.value<readonly Dependence[]>(list);
  if (known) {
    const now = known.map(({ path, how }) => ({ path, how, state: stateOf(effects, path, how) }));
    const value = store.value<Outcome<T>>(resultKey(seed, now));
    if (value) return value;
  }
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
  store.keepValue(list, dependences);
  return outcome;
}

const resultKey = (seed: string, dependences: readonly Dependence[]): string =>
  digestOf('what was read', seed, JSON.stringify(dependences));

const stateOf = (effects: Effects, path: string, how: Dependence['how']): string =>
  how === 'read' ? stateOfBytes(effects.readBytes(path)) : `${effects.exists(path)}`;

const stateOfBytes = (bytes: Outcome<Uint8Array>): string =>
  bytes.ok ? digestOf(bytes.value) : JSON.stringify(bytes.problems);
