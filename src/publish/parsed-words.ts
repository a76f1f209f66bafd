import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { deserialize, serialize } from 'node:v8';
import type { ParsedWords } from './content.js';
import { house } from './house.js';
import type { Library } from './library/library.js';
import { digestOf } from './store/digest.js';

/** The program's words as its compiler has parsed them: that takes half a second, which each command would wait for. */
interface Parsed {
  /** Of the files that they were parsed from. */
  readonly stamp: string;
  readonly words: ParsedWords;
  readonly library: Library;
}

/** Beside the compiled program. */
const FILE = fileURLToPath(new URL('../words.bin', import.meta.url));

/** Null where they were not parsed, or the files have changed since. */
export function parsedWords(): Omit<Parsed, 'stamp'> | null {
  try {
    const parsed = deserialize(readFileSync(FILE)) as Parsed;
    return parsed.stamp === stampOf(house.content) ? parsed : null;
  } catch {
    // There is none, or another version of the runtime has written it.
    return null;
  }
}

export const keepParsedWords = (words: ParsedWords, library: Library): void =>
  writeFileSync(FILE, serialize({ stamp: stampOf(house.content), words, library }));

export const forgetParsedWords = (): void => rmSync(FILE, { force: true });

const stampOf = (folder: string): string =>
  digestOf(
    ...readdirSync(folder, { withFileTypes: true, recursive: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .sort()
      .flatMap((file) => [relative(folder, file), readFileSync(file)]),
  );
