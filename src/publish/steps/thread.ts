import { parentPort, workerData } from 'node:worker_threads';
import { disk } from '../disk.js';
import { openStore } from '../store/store.js';
import { type Answer, type Errand, type ThreadStart, told } from './errand.js';
import { stepsHere } from './here.js';
import type { Steps } from './steps.js';
import { received, workbench } from './workbench.js';

// A thread of a build: it gets errands, and answers each.

const { handed, epoch, store: places } = workerData as ThreadStart;
const effects = disk(() => undefined);
const collection = received(handed, effects);
const store = openStore(places.folder, places.others);
if (!collection.ok || !store.ok) throw new Error('what the build could read, its thread could not');
const steps = stepsHere(workbench(collection.value, epoch, store.value, effects)) as Record<
  keyof Steps,
  (items: readonly unknown[]) => Promise<unknown[]>
>;

parentPort?.on('message', async ({ step, items }: Errand) => {
  let answer: Answer;
  try {
    answer = { ok: true, results: await steps[step](items) };
  } catch (error) {
    answer = { ok: false, error: told(error) };
  }
  parentPort?.postMessage(answer);
});
