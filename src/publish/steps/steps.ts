import { type Glance, glance } from './glance.js';
import { type Made, type Order, produce } from './produce.js';
import { type Found, prove, type Suspect } from './prove.js';
import { type Survey, survey } from './survey.js';
import type { Workbench } from './workbench.js';

/**
 * The steps of a build that go case by case. What they take and give is plain data, and the result of one does not
 * depend on the others, so it is the same wherever and in whatever company it is made.
 */
export interface Steps {
  /** Reads case folders. */
  readonly survey: (folders: readonly string[]) => Promise<Survey[]>;
  /** Reads of them what all cases must know of each other. */
  readonly glance: (folders: readonly string[]) => Promise<Glance[]>;
  /** Makes the documents of cases. */
  readonly produce: (orders: readonly Order[]) => Promise<Made[]>;
  /** Searches parts of the public tree. */
  readonly prove: (suspects: readonly Suspect[]) => Promise<Found[][]>;
}

export type StepName = keyof Steps;

/** The steps in this thread. */
export const stepsHere = (bench: Workbench): Steps => ({
  survey: async (folders) => folders.map((folder) => survey(folder, bench)),
  glance: async (folders) => folders.map((folder) => glance(folder, bench)),
  produce: (orders) => produce(orders, bench),
  prove: async (suspects) => suspects.map((suspect) => prove(suspect, bench)),
});
