import { readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { digestOf } from '../store/digest.js';
import type { Store } from '../store/store.js';
import type { Produced } from './produce.js';
import type { Forbidden, Suspect } from './prove.js';

/** A public tree in parts that can be searched one by one: each case by itself, and all that stands around them. */
export function suspectsIn(
  folder: string,
  produced: readonly Produced[],
  store: Store,
  forbidden: Forbidden,
): Suspect[] {
  const key = digestOf('forbidden', JSON.stringify(forbidden));
  store.keepValue(key, forbidden);
  const documents = new Map(
    produced.flatMap(({ key: own, files }) => {
      const [, address] =
        files.find(({ path }) => path.startsWith('public/'))?.path.split('/') ?? [];
      return address === undefined ? [] : [[address, own] as const];
    }),
  );
  const parts = new Map<string, Suspect['entries'][number][]>();
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/');
    const is = entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : 'other';
    const [part = ''] = path.split('/');
    const entries = parts.get(part);
    if (entries) entries.push({ path, is });
    else parts.set(part, [{ path, is }]);
  }
  return [...parts].map(([part, entries]) => ({
    folder: resolve(folder),
    // The order in which a disk lists them is its own.
    entries: entries.sort((a, b) => (a.path < b.path ? -1 : 1)),
    documents: documents.get(part) ?? null,
    forbidden: key,
  }));
}
