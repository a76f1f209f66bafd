import type { Outcome, Problem } from '../../record/problem.js';
import { bad } from '../../record/problem.js';

/** After this many a reader mends the cause, not each place; a damaged file can have thousands. */
export const MOST_PROBLEMS = 20;

/** The first problems of a file that cannot be read. */
export const refuse = (problems: readonly Problem[]): Outcome<never> =>
  bad(...problems.slice(0, MOST_PROBLEMS));
