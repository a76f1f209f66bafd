import { load } from '../publish/load.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems } from './terminal.js';

export const checkCommand: Command = async (words, terminal) => {
  const read = readWords('check', words, {}, { least: 0, most: 1 }, terminal);
  if (!read) return 2;
  const loaded = load(read.positionals[0] ?? '.', diskFor(terminal));
  if (!loaded.ok) return showProblems(loaded.problems, terminal);
  const { cases, failed } = loaded.value;
  endProgress(terminal);
  if (cases.length > 0) {
    terminal.out(`No problem in ${cases.map(({ name }) => name).join(', ')}.`);
  }
  return failed.length === 0
    ? 0
    : showProblems(
        failed.flatMap(({ problems }) => problems),
        terminal,
      );
};
