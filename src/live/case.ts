/** Brings the figures of a case's page to life. Without it they remain as they are printed. */
import { LIVE_CASE, type LiveCase } from './contract.js';
import { cursor } from './cursor.js';
import { mountExercises } from './exercises/mount.js';
import { heartInStep } from './heart/heart-in-step.js';
import { mountStrips } from './strip/mount.js';
import { mountVitals } from './vitals/mount.js';

const data = (globalThis as { [LIVE_CASE]?: LiveCase })[LIVE_CASE];
if (data) {
  document.documentElement.dataset.scripts = 'case';
  const shared = cursor();
  mountVitals(data, shared);
  mountStrips(data, shared);
  heartInStep(data, shared);
  mountExercises(data);
}
