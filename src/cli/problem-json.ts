import type { Problem, Warning } from '../record/problem.js';
import { lineOf, rangeOf } from './problem-place.js';

/** A problem for an editor; the keys are described in the help of `thrice check`. */
export const problemJson = (problem: Problem | Warning) => {
  const text = lineOf(problem);
  return {
    kind: 'accepted' in problem ? 'warning' : 'problem',
    ...problem,
    ...(text !== null && { range: rangeOf(problem, text) }),
  };
};

/** All problems and warnings of a run, as one JSON object. */
export const problemsJson = (
  problems: readonly Problem[],
  warnings: readonly Warning[] = [],
): string =>
  JSON.stringify(
    { problems: problems.map(problemJson), warnings: warnings.map(problemJson) },
    null,
    2,
  );
