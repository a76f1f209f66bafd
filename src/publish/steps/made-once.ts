import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { KeptFile, KeptPart, Store } from '../store/store.js';

/** Makes files of the output, unless the store has them already. @param make writes them into a folder */
export async function madeOnce(
  store: Store,
  key: string,
  make: (folder: string) => Promise<void>,
): Promise<KeptPart> {
  const kept = store.value<readonly KeptFile[]>(key);
  if (kept && store.holds(key, kept)) return { key, files: kept };
  const scratch = store.scratch();
  try {
    const folder = join(scratch, 'made');
    mkdirSync(folder);
    await make(folder);
    const files = store.keepFiles(key, folder);
    store.keepValue(key, files);
    return { key, files };
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
