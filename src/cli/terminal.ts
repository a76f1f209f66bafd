import type { Problem, Warning } from '../record/problem.js';
import { PROBLEM_NUMBERS } from '../record/problem-kind.js';
import { frameOf } from './problem-place.js';

/** Where a command speaks; a test listens instead. */
export interface Terminal {
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** The next line that the user types or a pipe holds; null when there is none, or when the user breaks off. */
  readonly ask: (question: string) => Promise<string | null>;
  /** Null where nobody watches. */
  readonly progress: ((step: string) => void) | null;
}

/** Clears a progress line before other text is shown. */
export function endProgress(terminal: Terminal): void {
  terminal.progress?.('');
}

/** `case.yaml:12:3  patient.weight  [T210]` with what was found, what was expected and how to mend it. */
function problemText(problem: Problem): string {
  const { kind, file, line, column, byte, field, found, expected, mend } = problem;
  const place =
    line !== undefined
      ? `${file}:${line}${column !== undefined ? `:${column}` : ''}`
      : byte !== undefined
        ? `${file} at byte ${byte}`
        : file;
  return [
    `${place}${field ? `  ${field}` : ''}  [${PROBLEM_NUMBERS[kind]}]`,
    ...frameOf(problem),
    reasonText({ found, expected, mend }),
  ].join('\n');
}

/** What was found, what was expected and how to mend it, without the place. */
export const reasonText = ({
  found,
  expected,
  mend,
}: Pick<Problem, 'found' | 'expected' | 'mend'>): string =>
  [`  found     ${found}`, `  expected  ${expected}`, `  to mend   ${mend}`].join('\n');

/** Shows what a veterinarian is asked about; what the record has answered is shown with its answer. */
export function showWarnings(warnings: readonly Warning[], terminal: Terminal): void {
  if (warnings.length === 0) return;
  endProgress(terminal);
  for (const warning of warnings) {
    const lines = problemText(warning).split('\n');
    const answer =
      warning.accepted === null ? lines.slice(-1) : [`  accepted  ${warning.accepted}`];
    terminal.err(`Warning: ${[...lines.slice(0, -1), ...answer].join('\n')}`);
  }
  const open = unanswered(warnings).length;
  const count = warnings.length === 1 ? '1 warning' : `${warnings.length} warnings`;
  terminal.err(`${count}, ${open === 0 ? 'all accepted' : `${open} not accepted`}.`);
}

/** The warnings that the record does not answer. */
export const unanswered = (warnings: readonly Warning[]): readonly Warning[] =>
  warnings.filter(({ accepted }) => accepted === null);

/** Shows problems and gives the exit code for them. */
export function showProblems(problems: readonly Problem[], terminal: Terminal): 1 {
  endProgress(terminal);
  for (const problem of problems) terminal.err(problemText(problem));
  terminal.err(problems.length === 1 ? '1 problem.' : `${problems.length} problems.`);
  return 1;
}
