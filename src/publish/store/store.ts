import { createHash, randomUUID } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { bad, good, type Outcome } from '../../record/problem.js';

/**
 * Work that was done before, each piece under a key that is made of everything that it depends on. Nothing is taken
 * from here unread: what is not byte for byte as it was put in counts as not there, and is made again.
 */
export interface Store {
  /** Where it is, and where it is read from besides. */
  readonly folders: { readonly folder: string; readonly others: readonly string[] };
  /** Null where there is none. Plain data only: no functions, no classes. */
  readonly value: <T>(key: string) => T | null;
  /** Whether a value is there as it was kept, for whoever needs it later. */
  readonly keeps: (key: string) => boolean;
  readonly keepValue: (key: string, value: unknown) => void;
  /** Whether every one of these files is there as it was kept. */
  readonly holds: (key: string, files: readonly KeptFile[]) => boolean;
  /** Moves everything in a folder into the store. */
  readonly keepFiles: (key: string, folder: string) => readonly KeptFile[];
  /** Makes a folder on the disk of the store, for work that goes into it; whoever asked removes it. */
  readonly scratch: () => string;
  /** Puts kept files into a folder, without a second copy where the disk allows. */
  readonly place: (key: string, files: readonly KeptFile[], folder: string) => void;
}

export interface KeptFile {
  /** From the folder that was kept, with `/`. */
  readonly path: string;
  /** SHA-256, hex. */
  readonly digest: string;
}

/** Files that are kept together, under one key. */
export interface KeptPart {
  readonly key: string;
  readonly files: readonly KeptFile[];
}

/** Names a folder as one that a build may fill and empty. */
const MARKER = '.thrice-cache';

/** Bytes of a SHA-256. Not a clinical number. */
const DIGEST_LENGTH = 32;

/**
 * Opens a store, for its owner alone, since it holds what private sheets hold.
 * @param elsewhere stores that are read where this one lacks something
 */
export function openStore(place: string, elsewhere: readonly string[] = []): Outcome<Store> {
  const refused = made(place);
  if (refused) return refused;
  // Node makes folders for ever where the working folder is taken away and a path begins there.
  const [folder, others] = [resolve(place), elsewhere.map((one) => resolve(one))];
  const all = [folder, ...others];
  const valueIn = (root: string, key: string) => join(root, 'values', key.slice(0, 2), key);
  const filesIn = (root: string, key: string) => join(root, 'files', key.slice(0, 2), key);
  /** Builds that run side by side may make the same at once; each makes its own, and one is left. */
  const scratch = () => mkdtempSync(join(folder, 'new-'));
  const verified = (root: string, key: string, files: readonly KeptFile[]): boolean =>
    files.every(({ path, digest }) => {
      const bytes = bytesOf(join(filesIn(root, key), path));
      return bytes !== null && sha256(bytes).toString('hex') === digest;
    });
  /** The bytes of a value, where they are as they were kept. */
  const bodyUnder = (key: string): Buffer | null => {
    for (const root of all) {
      const file = valueIn(root, key);
      const bytes = bytesOf(file);
      if (bytes === null || bytes.length < DIGEST_LENGTH) continue;
      const body = bytes.subarray(DIGEST_LENGTH);
      if (!sealOf(key, body).equals(bytes.subarray(0, DIGEST_LENGTH))) continue;
      if (root === folder) touch(file);
      return body;
    }
    return null;
  };
  return good({
    folders: { folder, others },
    scratch,
    value: <T>(key: string): T | null => {
      const body = bodyUnder(key);
      return body && (deserialize(body) as T);
    },
    keeps: (key) => bodyUnder(key) !== null,
    keepValue: (key, value) => {
      const body = serialize(value);
      const target = valueIn(folder, key);
      const whole = join(folder, `new-${randomUUID()}`);
      writeFileSync(whole, Buffer.concat([sealOf(key, body), body]), { mode: 0o600, flag: 'wx' });
      mkdirSync(dirname(target), { recursive: true });
      renameSync(whole, target);
    },
    holds: (key, files) => {
      const root = all.find((one) => existsSync(filesIn(one, key)));
      if (root === undefined || !verified(root, key, files)) return false;
      if (root === folder) touch(filesIn(root, key));
      return true;
    },
    keepFiles: (key, made) => {
      const files = readdirSync(made, { withFileTypes: true, recursive: true })
        .filter((entry) => entry.isFile())
        .map((entry) => join(entry.parentPath, entry.name).slice(made.length + 1))
        .map((path) => path.replaceAll('\\', '/'))
        .sort()
        .map((path) => ({
          path,
          digest: sha256(readFileSync(join(made, path))).toString('hex'),
        }));
      const target = filesIn(folder, key);
      mkdirSync(dirname(target), { recursive: true });
      // What stands there is spoilt, or was made by another build in this moment: either way the new one is right.
      const place = existsSync(target) ? scratch() : null;
      if (place !== null) renameSync(target, join(place, 'old'));
      renameSync(made, target);
      if (place !== null) rmSync(place, { recursive: true });
      return files;
    },
    place: (key, files, into) => {
      const root = all.find((one) => existsSync(filesIn(one, key))) ?? folder;
      const folders = new Set<string>();
      for (const { path } of files) {
        const target = join(into, path);
        if (!folders.has(dirname(target))) mkdirSync(dirname(target), { recursive: true });
        folders.add(dirname(target));
        linked(join(filesIn(root, key), path), target);
      }
    },
  });
}

/** Whether a folder is one that builds or shards keep their work in. */
export const isStore = (folder: string): boolean => existsSync(join(folder, MARKER));

/** What no build has used for so long goes away, ms. Not a clinical number. */
const UNUSED = 24 * 3600 * 1000;

/** Empties a store of what was not used for a day. @param now ms since 1970 */
export function sweepStore(folder: string, now: number): void {
  for (const kind of ['values', 'files']) {
    for (const part of namesIn(join(folder, kind))) {
      for (const name of namesIn(join(folder, kind, part)))
        removeOld(join(folder, kind, part, name));
    }
  }
  // Left by builds that were killed.
  for (const name of namesIn(folder)) if (name.startsWith('new-')) removeOld(join(folder, name));

  function removeOld(entry: string): void {
    try {
      if (now - statSync(entry).mtimeMs > UNUSED) rmSync(entry, { recursive: true, force: true });
    } catch {
      // Another build has just removed it.
    }
  }
}

/** Makes the folder; a folder with other things in it is refused, never filled. */
function made(folder: string): Outcome<never> | null {
  const marker = join(folder, MARKER);
  if (existsSync(folder) && !existsSync(marker)) {
    if (!statSync(folder).isDirectory() || readdirSync(folder).length > 0) {
      return bad({
        kind: 'a folder that is no cache',
        file: folder,
        found: 'something that no build has made',
        expected: 'a new folder, an empty one, or the cache of an earlier build',
        mend: 'Name another folder with --cache.',
      });
    }
  }
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  if (!existsSync(marker)) {
    writeFileSync(join(folder, '.gitignore'), '*\n');
    writeFileSync(marker, 'Work of earlier builds, private. It may be removed at any time.\n');
  }
  return null;
}

const namesIn = (folder: string): string[] => (existsSync(folder) ? readdirSync(folder) : []);

const sha256 = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();

/** A value under another key is none, whole as it may be. */
const sealOf = (key: string, body: Uint8Array): Buffer =>
  createHash('sha256').update(`${key}\n`).update(body).digest();

function bytesOf(file: string): Buffer | null {
  try {
    return readFileSync(file);
  } catch {
    return null;
  }
}

function touch(entry: string): void {
  const now = new Date();
  try {
    utimesSync(entry, now, now);
  } catch {
    // A store that may be read but not written serves as well.
  }
}

function linked(source: string, target: string): void {
  try {
    linkSync(source, target);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code !== 'EXDEV' && code !== 'EPERM' && code !== 'EMLINK' && code !== 'ENOTSUP')
      throw error;
    copyFileSync(source, target);
  }
}

export const storeBeside = (out: string): string =>
  join(dirname(out), `.thrice-cache-${basename(out)}`);
