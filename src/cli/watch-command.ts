import { openPreview } from '../preview/preview.js';
import { servePreview } from '../preview/serve.js';
import { type Command, diskFor, readWords, todayIn } from './command.js';
import { frameOf } from './problem-place.js';
import { showProblems } from './terminal.js';

export const watchCommand: Command = async (words, terminal) => {
  const read = readWords(
    'watch',
    words,
    { port: { type: 'string' } },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const port = portFrom(read.values.port);
  if (port === null) {
    terminal.err(`thrice watch: --port "${read.values.port}" is not a whole number up to 65535.`);
    return 2;
  }
  const cases = read.positionals[0] ?? '.';
  const preview = openPreview(
    { cases, environment: process.env, today: todayIn, frameOf },
    diskFor(terminal),
  );
  const serving = await servePreview(preview, port);
  if (!serving.ok) {
    await preview.close();
    return showProblems(serving.problems, terminal);
  }
  terminal.out(`Preview of ${cases}  http://localhost:${serving.value.port}/`);
  terminal.out(
    'For this machine alone, and never published. It follows every saved change. Ctrl+C ends it.',
  );
  if (preview.problems().length > 0) showProblems(preview.problems(), terminal);
  await stopped();
  await serving.value.end();
  await preview.close();
  return 0;
};

/** The port that was asked for, 0 for any; null where the word is none. */
function portFrom(word: string | undefined): number | null {
  if (word === undefined) return 0;
  return /^\d{1,5}$/.test(word) && Number(word) <= 65_535 ? Number(word) : null;
}

const stopped = (): Promise<void> =>
  new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
