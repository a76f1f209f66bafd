import type { Problem } from './problem.js';

/** How many problems of a file there are beyond those that are shown: one slip often causes a thousand. */
export const moreProblems = (left: number, file: string): Problem => ({
  kind: 'more problems than are shown',
  file,
  found: `${left} more ${left === 1 ? 'problem' : 'problems'}`,
  expected: 'none',
  mend: 'Mend the ones above first; one slip, such as a line that is repeated or indented wrongly, may cause many.',
});

/** The first problems of a file, and how many more there are. */
export const firstProblems = (
  problems: readonly Problem[],
  most: number,
  file: string,
): readonly Problem[] =>
  problems.length > most
    ? [...problems.slice(0, most), moreProblems(problems.length - most, file)]
    : problems;
