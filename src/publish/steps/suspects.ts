import { readdirSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { digestOf } from '../store/digest.js';
import type { Store } from '../store/store.js';
import type { KeptPart } from './made-once.js';
import type { Forbidden, Suspect } from './prove.js';

/**
 * A public tree in parts that can be searched one by one: what is kept together, and whatever stands there besides,
 * folders and files that nobody meant to be there.
 */
export function suspectsIn(
  folder: string,
  parts: readonly KeptPart[],
  store: Store,
  forbidden: Forbidden,
): Suspect[] {
  const key = digestOf('forbidden', JSON.stringify(forbidden));
  store.keepValue(key, forbidden);
  const partOf = new Map(
    parts.flatMap((part) => part.files.map(({ path }) => [path, part.key] as const)),
  );
  const entries = new Map<string | null, Suspect['entries'][number][]>();
  for (const entry of readdirSync(folder, { withFileTypes: true, recursive: true })) {
    const path = relative(folder, join(entry.parentPath, entry.name)).split(sep).join('/');
    const is = entry.isFile() ? 'file' : entry.isDirectory() ? 'folder' : 'other';
    const part = (is === 'file' && partOf.get(`public/${path}`)) || null;
    const others = entries.get(part);
    if (others) others.push({ path, is });
    else entries.set(part, [{ path, is }]);
  }
  return [...entries].map(([documents, found]) => ({
    folder: resolve(folder),
    // The order in which a disk lists them is its own.
    entries: found.sort((a, b) => (a.path < b.path ? -1 : 1)),
    documents,
    forbidden: key,
  }));
}
