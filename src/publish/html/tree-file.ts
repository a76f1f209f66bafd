import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';

/** A file of a tree, its bytes made when they are asked for. */
export interface TreeFile {
  /** From the top of the tree, with `/`. */
  readonly path: string;
  readonly bytes: () => Uint8Array;
}

export function writeFiles(files: readonly TreeFile[], folder: string): void {
  const folders = new Set<string>();
  for (const { path, bytes } of files) {
    const target = join(folder, path);
    if (!folders.has(dirname(target))) mkdirSync(dirname(target), { recursive: true });
    folders.add(dirname(target));
    writeFileSync(target, bytes());
  }
}

/** The last part of a path. */
export const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
