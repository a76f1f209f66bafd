import { parentPort, workerData } from 'node:worker_threads';
import { type HeldStart, heldHere } from './held.js';
import { openStore } from './store.js';

const { folders, parts } = workerData as HeldStart;
const store = openStore(folders.folder, folders.others);
if (!store.ok) throw new Error('what the build could open, its thread could not');
parentPort?.postMessage(heldHere(parts, store.value));
