import type { Problem, Warning } from '../record/problem.js';
import { PROBLEM_NUMBERS } from '../record/problem-kind.js';
import { lineOf, rangeOf } from './problem-place.js';

/** A problem for an editor; the keys are described in the help of `thrice check`. */
const problemJson = (problem: Problem | Warning) => {
  const text = lineOf(problem);
  const { end: _end, ...said } = problem;
  return {
    number: PROBLEM_NUMBERS[problem.kind],
    ...said,
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
