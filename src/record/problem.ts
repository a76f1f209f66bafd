import type { ProblemKind } from './problem-kind.js';

/**
 * A problem in the user's own files: where it is, what was found, what was expected, how to mend it.
 * Problems are values, gathered and shown all at once; exceptions are left for bugs.
 */
export interface Problem {
  readonly kind: ProblemKind;
  /** Path as the user would type it. */
  readonly file: string;
  /** 1-based position in a text file. */
  readonly line?: number;
  readonly column?: number;
  /** The column after the last that is meant; the end of the line where it is left out. */
  readonly end?: number;
  /** 0-based offset in a binary file. */
  readonly byte?: number;
  /** The key, column or header field, for example `medicines[0].dose`. */
  readonly field?: string;
  readonly found: string;
  readonly expected: string;
  readonly mend: string;
}

/** A field of a text file. */
export type Place = Pick<Problem, 'file' | 'line' | 'column' | 'end' | 'field'>;

/** A problem that a veterinarian may have meant: the documents are made, and the reader of the record is asked. */
export interface Warning extends Problem {
  /** Why it is as it should be, in the record's own words; null until the record says so. */
  readonly accepted: string | null;
}

/** Either a value or every reason why there is none. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export const good = <T>(value: T): Outcome<T> => ({ ok: true, value });
export const bad = (...problems: readonly Problem[]): Outcome<never> => ({ ok: false, problems });
