import type { Outcome } from '../record/problem.js';
import { utf8Text } from '../record/utf8.js';

/** Everything of the outside world that reading needs; a test passes its own. */
export interface Effects {
  readonly readBytes: (path: string) => Outcome<Uint8Array>;
  /** Names of the folders in a folder, sorted; none where it does not exist. */
  readonly folders: (path: string) => readonly string[];
  /** Names of the files in a folder, sorted; none where it does not exist. */
  readonly files: (path: string) => readonly string[];
  readonly exists: (path: string) => boolean;
  /** What changes whenever the bytes at a path do; null where there is nothing. */
  readonly stamp: (path: string) => string | null;
  /** A step of long work, for a person who watches. */
  readonly progress: (step: string) => void;
}

/** UTF-8 text of a file; bytes that are not UTF-8 are a problem, never replaced. */
export function readText(effects: Pick<Effects, 'readBytes'>, path: string): Outcome<string> {
  const bytes = effects.readBytes(path);
  return bytes.ok ? utf8Text(bytes.value, path) : bytes;
}
