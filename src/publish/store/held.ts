import { Worker } from 'node:worker_threads';
import type { KeptPart, Store } from './store.js';

/** So many files are read in the time that a thread takes to start. Not a clinical number. */
const WORTH_A_THREAD = 500;

/** What the thread begins with. */
export interface HeldStart {
  readonly folders: Store['folders'];
  readonly parts: readonly KeptPart[];
}

/** Whether the files of each part are there as they were kept. */
export const heldHere = (parts: readonly KeptPart[], store: Pick<Store, 'holds'>): boolean[] =>
  parts.map(({ key, files }) => store.holds(key, files));

/**
 * The same. To read everything again takes longer than all else in a build that changes little, so many files are read
 * in a thread, while this one goes on with what changed.
 */
export async function held(parts: readonly KeptPart[], store: Store): Promise<readonly boolean[]> {
  const count = parts.reduce((sum, { files }) => sum + files.length, 0);
  if (count < WORTH_A_THREAD) return heldHere(parts, store);
  const workerData: HeldStart = { folders: store.folders, parts };
  return new Promise((resolve, reject) => {
    new Worker(new URL('./held-thread.js', import.meta.url), { workerData })
      .once('message', resolve)
      .once('error', reject);
  });
}
