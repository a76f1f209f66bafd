import type { Glance } from './glance.js';
import type { Made, Order } from './produce.js';
import type { Found, Suspect } from './prove.js';
import type { Survey } from './survey.js';

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
