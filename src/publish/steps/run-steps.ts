import { availableParallelism } from 'node:os';
import { held, heldHere } from '../store/held.js';
import { stepsHere } from './here.js';
import { recallFound, recallProduced, recallSurvey } from './recall.js';
import type { Steps } from './steps.js';
import { startThreads, type Threads } from './threads.js';
import type { Workbench } from './workbench.js';

export interface StepOptions {
  readonly environment?: Readonly<Record<string, string | undefined>>;
  /**
   * How many threads share the work, 0 for this one alone; by default as many as there are processors, where there is
   * work enough for them.
   */
  readonly threads?: number;
}

/** Does something with the steps of a build. What the store has is taken from there; threads start when there is work for them. */
export async function inSteps<T>(
  bench: Workbench,
  { threads, environment = {} }: StepOptions,
  task: (steps: Steps) => Promise<T>,
): Promise<T> {
  let started: Threads | undefined;
  const end = async () => {
    await started?.end();
    started = undefined;
  };
  const workers = async (items: number): Promise<Steps> => {
    const count = threads ?? threadsFor(items);
    if (!started && count > 0) {
      const { content: _, library: __, ...handed } = bench.collection;
      started = startThreads(count, {
        handed,
        epoch: environment.SOURCE_DATE_EPOCH,
        store: bench.store.folders,
      });
    }
    return started?.steps ?? stepsHere(bench);
  };
  try {
    return await task({
      survey: (folders) =>
        completed(
          folders,
          (folder) => recallSurvey(folder, bench),
          async (missing) => (await workers(missing.length)).survey(missing),
        ),
      glance: async (folders) => (await workers(folders.length)).glance(folders),
      produce: (orders) =>
        completed(
          orders,
          (order) => recallProduced(order, bench),
          async (missing) => (await workers(missing.length)).produce(missing),
          async (known) => {
            const parts = known.map(({ outcome }) => outcome.value);
            return threads === 0 ? heldHere(parts, bench.store) : held(parts, bench.store);
          },
        ),
      prove: (suspects) =>
        completed(
          suspects,
          (suspect) => recallFound(suspect, bench),
          async (missing) => {
            // What threads keep of their cases is of no use to the search, which may need as much again.
            await end();
            return (await workers(missing.length)).prove(missing);
          },
        ),
    });
  } finally {
    await end();
  }
}

/** A thread reads the program and its words first, which takes as long as some cases. Not a clinical number. */
const WORTH_A_THREAD = 8;

const threadsFor = (items: number): number =>
  items < 2 * WORTH_A_THREAD
    ? 0
    : Math.min(availableParallelism(), Math.floor(items / WORTH_A_THREAD));

/**
 * A result for each item in its order: those that are known, and all others made in one go.
 * @param check whether each known one still stands; the others are made meanwhile
 */
async function completed<Item, Known extends Result, Result>(
  items: readonly Item[],
  recall: (item: Item) => Known | null,
  make: (missing: readonly Item[]) => Promise<Result[]>,
  check = async (known: readonly Known[]): Promise<readonly boolean[]> => known.map(() => true),
): Promise<Result[]> {
  const makeFor = async (results: readonly (Result | null)[]): Promise<Result[]> => {
    const missing = items.filter((_, index) => results[index] === null);
    const made = missing.length === 0 ? [] : await make(missing);
    let next = 0;
    return results.map((one) => one ?? (made[next++] as Result));
  };
  const known = items.map(recall);
  const [stands, made] = await Promise.all([
    check(known.filter((one) => one !== null)),
    makeFor(known),
  ]);
  let next = 0;
  return makeFor(
    known.map((one, index) => (one === null || stands[next++] ? (made[index] as Result) : null)),
  );
}
