import type { Problem } from '../record/problem.js';

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

/** `case.yaml:12:3  patient.weight` with what was found, what was expected and how to mend it. */
export function problemText(problem: Problem): string {
  const { file, line, column, byte, field, found, expected, mend } = problem;
  const place =
    line !== undefined
      ? `${file}:${line}${column !== undefined ? `:${column}` : ''}`
      : byte !== undefined
        ? `${file} at byte ${byte}`
        : file;
  return [`${place}${field ? `  ${field}` : ''}`, reasonText({ found, expected, mend })].join('\n');
}

/** What was found, what was expected and how to mend it, without the place. */
export const reasonText = ({
  found,
  expected,
  mend,
}: Pick<Problem, 'found' | 'expected' | 'mend'>): string =>
  [`  found     ${found}`, `  expected  ${expected}`, `  to mend   ${mend}`].join('\n');

/** Shows problems and gives the exit code for them. */
export function showProblems(problems: readonly Problem[], terminal: Terminal): 1 {
  endProgress(terminal);
  for (const problem of problems) terminal.err(problemText(problem));
  terminal.err(problems.length === 1 ? '1 problem.' : `${problems.length} problems.`);
  return 1;
}
