import type { Terminal } from './terminal.js';

/** More would only wait for each other. Not a clinical number. */
const MOST_THREADS = 256;

/** What `--threads` asks for; undefined where the build decides, null for what is no number, which is said. */
export function threadsFor(
  asked: string | undefined,
  command: string,
  terminal: Terminal,
): number | undefined | null {
  if (asked === undefined) return undefined;
  if (/^\d{1,3}$/.test(asked) && Number(asked) <= MOST_THREADS) return Number(asked);
  terminal.err(
    `thrice ${command}: --threads "${asked}" is not a whole number from 0 to ${MOST_THREADS}.`,
  );
  return null;
}
