import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** A file of a tree, its bytes made when they are asked for. */
export interface TreeFile {
  /** From the top of the tree, with `/`. */
  readonly path: string;
  readonly bytes: () => Uint8Array;
}

export function writeFiles(files: readonly TreeFile[], folder: string): void {
  for (const { path, bytes } of files) {
    const target = join(folder, path);
    mkdirSync(dirname(target), { recursive: true });
    writeFileSync(target, bytes());
  }
}

/** The last part of a path. */
export const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
