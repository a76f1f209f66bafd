import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { run } from '../../src/cli/run.js';

export const root = fileURLToPath(new URL('../../', import.meta.url));
export const program = `${root}dist/cli/main.js`;

/** Runs a command line within the test, and gives what it said. */
export const thrice = (...words: string[]) => answering(() => null, ...words);

/** The same, with a user who answers each question. */
export async function answering(answer: (question: string) => string | null, ...words: string[]) {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(words, {
    out: (text) => out.push(text),
    err: (text) => err.push(text),
    ask: async (question) => {
      out.push(question);
      return answer(question);
    },
    progress: null,
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
}

/** Runs the compiled program in a process of its own, its output piped. */
export function spawned(words: readonly string[], options: object = {}) {
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
    ...options,
  });
  return { code: status, out: String(stdout), err: String(stderr) };
}
