import { Worker } from 'node:worker_threads';
import { type Answer, type Errand, heard, type ThreadStart } from './errand.js';
import type { StepName, Steps } from './steps.js';

/** Steps that many threads share, and the way to end them. */
export interface Threads {
  readonly steps: Steps;
  readonly end: () => Promise<void>;
}

/** Items that a thread is handed at once: many enough that the pages of cases share their start, few enough that no thread ends long before the others. Not a clinical number. */
const AT_ONCE: Readonly<Record<StepName, number>> = {
  survey: 8,
  glance: 32,
  produce: 4,
  prove: 4,
};

/** Starts threads. Whoever ends first gets the next items, and the results stand in the order of the items all the same. */
export function startThreads(count: number, start: ThreadStart): Threads {
  const threads = Array.from({ length: count }, () => thread(start));
  const idle = [...threads];
  const waiting: ((free: Thread) => void)[] = [];
  const free = () =>
    new Promise<Thread>((resolve) => {
      const one = idle.pop();
      if (one) resolve(one);
      else waiting.push(resolve);
    });
  const release = (one: Thread) => {
    const next = waiting.shift();
    if (next) next(one);
    else idle.push(one);
  };
  const shared =
    (step: StepName) =>
    async (items: readonly unknown[]): Promise<unknown[]> => {
      const size = Math.max(1, Math.min(AT_ONCE[step], Math.ceil(items.length / count)));
      const parts = Array.from({ length: Math.ceil(items.length / size) }, (_, index) =>
        items.slice(index * size, (index + 1) * size),
      );
      const results = await Promise.all(
        parts.map(async (part) => {
          const one = await free();
          try {
            return await one.does({ step, items: part });
          } finally {
            release(one);
          }
        }),
      );
      return results.flat();
    };
  return {
    steps: {
      survey: shared('survey'),
      glance: shared('glance'),
      produce: shared('produce'),
      prove: shared('prove'),
    } as Steps,
    end: async () => {
      await Promise.all(threads.map((one) => one.end()));
    },
  };
}

/**
 * MB of a thread's heap: without a bound it would grow by what a machine has, long before anything is let go. With less V8
 * collects sooner than it needs to: 256 cost a tenth more time than 512, and with that a thousand cases held over 1 GB in
 * all. Not a clinical number.
 */
const HEAP = 384;
/** MB. Not a clinical number. */
const YOUNG = 48;

interface Thread {
  readonly does: (errand: Errand) => Promise<readonly unknown[]>;
  readonly end: () => Promise<unknown>;
}

function thread(start: ThreadStart): Thread {
  const worker = new Worker(new URL('./thread.js', import.meta.url), {
    workerData: start,
    resourceLimits: { maxOldGenerationSizeMb: HEAP, maxYoungGenerationSizeMb: YOUNG },
  });
  let settle: { resolve: (results: readonly unknown[]) => void; reject: (error: Error) => void };
  worker.on('message', (answer: Answer) => {
    if (answer.ok) settle.resolve(answer.results);
    else settle.reject(heard(answer.error));
  });
  // A thread that breaks, for want of memory for instance, breaks the build and leaves the last output as it is.
  worker.on('error', (error) => settle?.reject(error));
  return {
    does: (errand) =>
      new Promise((resolve, reject) => {
        settle = { resolve, reject };
        worker.postMessage(errand);
      }),
    end: () => worker.terminate(),
  };
}
