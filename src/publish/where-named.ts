import { basename } from 'node:path';
import type { Outcome, Place } from '../record/problem.js';

/** What cannot be read as a whole is told at the line of the record that names it; what has a place of its own keeps it. */
export function whereNamed<T>(outcome: Outcome<T>, place: Place): Outcome<T> {
  if (outcome.ok) return outcome;
  return {
    ok: false,
    problems: outcome.problems.map((problem) => {
      const { file, line, byte, field, found } = problem;
      return line !== undefined || byte !== undefined || field !== undefined
        ? problem
        : { ...problem, ...place, found: `"${basename(file)}": ${found}` };
    }),
  };
}
