import { writeNewKey } from '../publish/pseudonym-key.js';
import { type Command, readWords } from './command.js';
import { showProblems } from './terminal.js';

export const keyCommand: Command = async (words, terminal) => {
  const read = readWords('key', words, {}, { least: 1, most: 1 }, terminal);
  if (!read) return 2;
  const file = read.positionals[0] as string;
  const written = writeNewKey(file);
  if (!written.ok) return showProblems(written.problems, terminal);
  terminal.out(`Wrote a new key to ${file}, for your account alone.`);
  terminal.out(`Name it in clinic.yaml: pseudonyms: { key file: ${file} }`);
  terminal.out('Keep a copy under lock; show it to nobody who may read the public cases.');
  return 0;
};
