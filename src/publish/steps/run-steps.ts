import { availableParallelism } from 'node:os';
import type { Collection } from '../collection.js';
import type { Effects } from '../effects.js';
import type { Store } from '../store/store.js';
import { type Steps, stepsHere } from './steps.js';
import { startThreads } from './threads.js';
import { workbench } from './workbench.js';

export interface StepOptions {
  readonly environment?: Readonly<Record<string, string | undefined>>;
  /**
   * How many threads share the work, 0 for this one alone; by default as many as there are processors, where there are
   * cases enough for them.
   */
  readonly threads?: number;
}

/** Does something with the steps of a build, in threads where there are any. */
export async function inSteps<T>(
  collection: Collection,
  store: Store,
  { threads: asked, environment = {} }: StepOptions,
  effects: Effects,
  task: (steps: Steps) => Promise<T>,
): Promise<T> {
  const epoch = environment.SOURCE_DATE_EPOCH;
  const threads = asked ?? threadsFor(collection.folders.length);
  if (threads === 0) return task(stepsHere(workbench(collection, epoch, store, effects)));
  const { content: _, library: __, ...handed } = collection;
  const started = startThreads(threads, { handed, epoch, store: store.folders });
  try {
    return await task(started.steps);
  } finally {
    await started.end();
  }
}

/** A thread reads the program and its words first, which takes as long as some cases. Not a clinical number. */
const WORTH_A_THREAD = 8;

const threadsFor = (cases: number): number =>
  cases < 2 * WORTH_A_THREAD
    ? 0
    : Math.min(availableParallelism(), Math.floor(cases / WORTH_A_THREAD));
