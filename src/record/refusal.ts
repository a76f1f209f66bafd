import type { Problem } from './problem.js';
import type { ProblemKind } from './problem-kind.js';

/** What is said of a value that cannot be taken; with its place it is a `Problem`. */
export type Refusal = Pick<Problem, 'kind' | 'found' | 'expected' | 'mend'>;

/** Names a value as a person would see it in the file. */
export function describe(input: unknown): string {
  if (input === undefined) return 'nothing';
  if (input === null) return 'an empty value';
  if (typeof input === 'string') return `"${shortened(input)}"`;
  if (Array.isArray(input)) return `a list of ${input.length}`;
  if (typeof input === 'object') return 'a group of keys';
  return typeof input === 'number' ? `the bare number ${input}` : `${input}`;
}

/** A text as a message quotes it: by its beginning where it is long. @param most letters, the sign of what is left out among them */
export const shortened = (text: string, most = 60): string =>
  text.length > most ? `${text.slice(0, most - 1)}…` : text;

/** The issue to add in a schema's transform for what cannot be taken. */
export const refused = (params: Refusal) => ({
  code: 'custom' as const,
  message: params.mend,
  params: { ...params },
});

/** The same for a value, as it is written. */
export const refusal = (kind: ProblemKind, written: unknown, expected: string, mend: string) =>
  refused({ kind, found: describe(written), expected, mend });

/** The refusal that an issue carries, where a schema gave one. */
export function refusalOf(params: Record<string, unknown> | undefined): Refusal | null {
  return params && typeof params.found === 'string' ? (params as unknown as Refusal) : null;
}
