import type { Steps } from './steps.js';
import type { Workbench } from './workbench.js';

/** The steps in this thread. The part of the program that a step needs is read when the step is first taken: together they take a second. */
export const stepsHere = (bench: Workbench): Steps => ({
  survey: async (folders) => {
    const { survey } = await import('./survey.js');
    return folders.map((folder) => survey(folder, bench));
  },
  glance: async (folders) => {
    const { glance } = await import('./glance.js');
    return folders.map((folder) => glance(folder, bench));
  },
  produce: async (orders) => {
    const { produce } = await import('./produce.js');
    return produce(orders, bench);
  },
  prove: async (suspects) => {
    const { prove } = await import('./prove.js');
    return suspects.map((suspect) => prove(suspect, bench));
  },
});
