import type { Effects } from '../publish/effects.js';

/** The files that something was read from, or looked for. */
export interface Noted {
  readonly effects: Effects;
  /** Whether every one of them is as it was then. */
  readonly isUnchanged: () => boolean;
}

/** Notes each file's stamp before it is read, so that a change in the meantime counts as one. */
export function noting(effects: Effects): Noted {
  const stamps = new Map<string, string | null>();
  const note = (path: string) => {
    if (!stamps.has(path)) stamps.set(path, effects.stamp(path));
  };
  return {
    effects: {
      ...effects,
      readBytes: (path) => {
        note(path);
        return effects.readBytes(path);
      },
      exists: (path) => {
        note(path);
        return effects.exists(path);
      },
    },
    isUnchanged: () => [...stamps].every(([path, stamp]) => effects.stamp(path) === stamp),
  };
}
