import { build } from '../publish/build.js';
import { isStore, storeBeside } from '../publish/store/store.js';
import { showBuild } from './built.js';
import { type Command, diskFor, readWords } from './command.js';
import { threadsFor } from './threads-option.js';

export const mergeCommand: Command = async (words, terminal) => {
  const read = readWords(
    'merge',
    words,
    {
      out: { type: 'string' },
      strict: { type: 'boolean' },
      cache: { type: 'string' },
      threads: { type: 'string' },
    },
    { least: 2, most: Number.POSITIVE_INFINITY },
    terminal,
  );
  if (!read) return 2;
  const { values } = read;
  const [cases, ...shards] = read.positionals as [string, ...string[]];
  const threads = threadsFor(values.threads, 'merge', terminal);
  if (threads === null) return 2;
  const out = values.out ?? 'out';
  const lost = shards.filter((one) => !isStore(one));
  if (lost.length === shards.length) {
    terminal.err(
      `thrice merge: no share in ${lost.join(', ')}. Mend the name, or make one with "thrice build ${cases} --shard 1/2 --out ${lost[0]}"; a build alone needs no share.`,
    );
    return 2;
  }
  for (const one of lost) {
    terminal.err(
      `No share in ${one}: its work is done here. Where that is a slip in the name, the share is yet to be joined.`,
    );
  }
  const report = await build(
    {
      cases,
      shards,
      out,
      strict: values.strict ?? false,
      environment: process.env,
      cache: values.cache ?? storeBeside(out),
      ...(threads !== undefined && { threads }),
    },
    diskFor(terminal),
  );
  return showBuild(report, out, terminal);
};
