import { readFileSync } from 'node:fs';
import type { Problem } from '../record/problem.js';

/** A stretch of one line of a text file; columns count from 1, and `end` is the one after the last. */
export interface ProblemRange {
  readonly line: number;
  readonly column: number;
  readonly end: number;
}

/** The widest part of a line that is shown. Not a clinical number. */
const WIDEST = 96;

/** The line of a file that a problem speaks of; null where it is of a binary file, or the file is gone. */
export function lineOf({ file, line, byte }: Problem): string | null {
  if (line === undefined || byte !== undefined) return null;
  try {
    return readFileSync(file, 'utf8').split(/\r?\n/)[line - 1] ?? null;
  } catch {
    return null;
  }
}

/** From the problem's column, or else the first letter, to its end, or else the last letter of its line; a remark behind it is left out. */
export function rangeOf({ line = 1, column, end }: Problem, text: string): ProblemRange {
  const start = column ?? text.length - text.trimStart().length + 1;
  const said = text.replace(/\s+#.*$/, '').trimEnd();
  return { line, column: start, end: Math.max(start + 1, end ?? said.length + 1) };
}

/** The line with its number, and under it a rule below what is meant. */
export function frameOf(problem: Problem): string[] {
  const text = lineOf(problem);
  // What a record lacks as a whole is told at its first line, which may be a remark.
  if (text === null || /^\s*(#|$)/.test(text)) return [];
  const { line, column, end } = rangeOf(problem, text);
  const from = column > WIDEST / 2 ? column - 1 - WIDEST / 4 : 0;
  const part = text.slice(from, from + WIDEST).replaceAll('\t', ' ');
  const before = from > 0 ? '…' : '';
  const after = from + WIDEST < text.length ? '…' : '';
  const shown = before + part.slice(before.length, WIDEST - after.length) + after;
  const gutter = `${line}  `;
  const marked =
    problem.column === undefined
      ? []
      : [
          ' '.repeat(gutter.length + column - 1 - from) +
            '¯'.repeat(Math.min(end, from + WIDEST + 1) - column),
        ];
  return [`${gutter}${shown}`, ...marked].map((row) => `  ${row}`);
}
