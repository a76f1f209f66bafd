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

/** So many problems of one kind in one column are one slip, such as a wrong unit in the title. Not a clinical number. */
const ONE_SLIP = 4;

/**
 * Problems of lines, those that are alike in all but their line told once with their number, in the place of the first.
 * @param together what mends all of them at once; null where each is mended by itself
 */
export function alike(
  problems: readonly Problem[],
  together: (one: Problem) => string | null,
): Problem[] {
  const key = ({ kind, field, expected }: Problem) => JSON.stringify([kind, field, expected]);
  const groups = new Map<string, Problem[]>();
  for (const problem of problems) {
    const group = groups.get(key(problem));
    if (group) group.push(problem);
    else groups.set(key(problem), [problem]);
  }
  return problems.flatMap((problem) => {
    const group = groups.get(key(problem)) as Problem[];
    if (group.length < ONE_SLIP) return [problem];
    if (problem !== group[0]) return [];
    const found = `${problem.found}, and the like on ${group.length - 1} more lines`;
    return [{ ...problem, found, mend: together(problem) ?? problem.mend }];
  });
}
