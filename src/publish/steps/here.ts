import { glance } from './glance.js';
import { produce } from './produce.js';
import { prove } from './prove.js';
import type { Steps } from './steps.js';
import { survey } from './survey.js';
import type { Workbench } from './workbench.js';

/** The steps in this thread. Whoever imports this has the whole program read, which takes a second. */
export const stepsHere = (bench: Workbench): Steps => ({
  survey: async (folders) => folders.map((folder) => survey(folder, bench)),
  glance: async (folders) => folders.map((folder) => glance(folder, bench)),
  produce: (orders) => produce(orders, bench),
  prove: async (suspects) => suspects.map((suspect) => prove(suspect, bench)),
});
