import type { ToldProblem } from './contract.js';
import { element } from './element.js';

/** A problem as the terminal shows it: place, field, line of the file, and how to mend it. */
export function problemView(problem: ToldProblem): HTMLElement {
  const { number, place, field, frame, found, expected, mend } = problem;
  const rows = { found, expected, 'to mend': mend };
  return element(
    'div',
    { class: 'problem' },
    element(
      'p',
      {},
      element('span', { class: 'place' }, place),
      ...(field === null ? [] : [' ', element('span', { class: 'field' }, field)]),
      ' ',
      element('span', { class: 'number' }, number),
    ),
    frame.length === 0
      ? null
      : element('pre', { tabindex: '0', 'aria-label': 'Line of the file' }, frame.join('\n')),
    element(
      'dl',
      {},
      ...Object.entries(rows).flatMap(([name, said]) => [
        element('dt', {}, name),
        element('dd', {}, said),
      ]),
    ),
  );
}

export const counted = (count: number, what: string): string =>
  `${count} ${count === 1 ? what : `${what}s`}`;

/** Everything that is wrong, at once; null where nothing is. */
export function problemsView(problems: readonly ToldProblem[]): HTMLElement | null {
  if (problems.length === 0) return null;
  return element(
    'section',
    { class: 'problems', 'aria-label': 'Problems' },
    element('p', { class: 'wrong' }, `${counted(problems.length, 'problem')}`),
    ...problems.map(problemView),
  );
}
