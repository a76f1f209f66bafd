import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { house } from '../house.js';
import { digestOf } from './digest.js';

/** The folder of the running code, compiled or not. */
const code = fileURLToPath(new URL('../..', import.meta.url));

let known: string | undefined;

/**
 * Digest of everything that documents depend on beside the user's files: the program, its words, templates and scripts,
 * the libraries as they are locked, and what the runtime knows of languages and time zones.
 */
export function programDigest(): string {
  known ??= digestOf(
    process.platform,
    process.arch,
    ...Object.entries(process.versions).flatMap(([part, version]) => [part, version ?? '']),
    ...[code, house.live, house.content, house.templates].flatMap(filesIn),
    ...['.eleventy.js', 'package.json', 'package-lock.json'].flatMap((name) =>
      fileIn(house.root, join(house.root, name)),
    ),
  );
  return known;
}

const filesIn = (folder: string): (string | Uint8Array)[] =>
  readdirSync(folder, { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
    .flatMap((file) => fileIn(folder, file));

const fileIn = (folder: string, file: string): (string | Uint8Array)[] =>
  existsSync(file) ? [relative(folder, file), readFileSync(file)] : [];
