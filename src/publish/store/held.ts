import { availableParallelism } from 'node:os';
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
 * in threads, while this one goes on with what changed.
 */
export async function held(parts: readonly KeptPart[], store: Store): Promise<readonly boolean[]> {
  const count = parts.reduce((sum, { files }) => sum + files.length, 0);
  const threads = Math.min(availableParallelism(), Math.floor(count / WORTH_A_THREAD));
  if (threads === 0) return heldHere(parts, store);
  const each = Math.ceil(parts.length / threads);
  const shares = Array.from({ length: threads }, (_, index) =>
    parts.slice(index * each, (index + 1) * each),
  );
  return (await Promise.all(shares.map((share) => heldInThread(share, store)))).flat();
}

const heldInThread = (
  parts: readonly KeptPart[],
  { folders }: Store,
): Promise<readonly boolean[]> =>
  new Promise((resolve, reject) => {
    const workerData: HeldStart = { folders, parts };
    new Worker(new URL('./held-thread.js', import.meta.url), { workerData })
      .once('message', resolve)
      .once('error', reject);
  });
