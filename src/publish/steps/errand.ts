import type { StepName } from './steps.js';
import type { Handed } from './workbench.js';

/** What a thread begins with. */
export interface ThreadStart {
  readonly handed: Handed;
  readonly epoch: string | undefined;
  readonly store: { readonly folder: string; readonly others: readonly string[] };
}

/** Some items of a step for a thread. */
export interface Errand {
  readonly step: StepName;
  readonly items: readonly unknown[];
}

/** Their results in the same order, or why there are none. */
export type Answer =
  | { readonly ok: true; readonly results: readonly unknown[] }
  | { readonly ok: false; readonly error: ToldError };

/** An error as it passes between threads, which would lose its code. */
export interface ToldError {
  readonly message: string;
  readonly stack: string | undefined;
  /** What the disk said, however deep it lay. */
  readonly code: string | undefined;
}

export function told(error: unknown): ToldError {
  const { message, stack } = error instanceof Error ? error : new Error(String(error));
  return { message, stack, code: codeOf(error) };
}

/** The error of a thread as this thread throws it. */
export const heard = ({ message, stack, code }: ToldError): Error =>
  Object.assign(new Error(message), { stack, code });

function codeOf(error: unknown, depth = 0): string | undefined {
  if (!(error instanceof Error) || depth > 9) return undefined;
  const { code, cause, originalError } = error as NodeJS.ErrnoException & {
    originalError?: unknown;
  };
  return code ?? codeOf(cause ?? originalError, depth + 1);
}
