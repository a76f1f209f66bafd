import { resolve } from 'node:path';
import { build } from '../publish/build.js';
import { buildShard, type ShardReport, type Share } from '../publish/shard.js';
import { storeBeside } from '../publish/store/store.js';
import type { Outcome } from '../record/problem.js';
import { counted, showBuild } from './built.js';
import { type Command, diskFor, readWords } from './command.js';
import { compileLate } from './late-compiling.js';
import { endProgress, showProblems, showWarnings, type Terminal } from './terminal.js';
import { threadsFor } from './threads-option.js';

export const buildCommand: Command = async (words, terminal) => {
  const read = readWords(
    'build',
    words,
    {
      out: { type: 'string' },
      strict: { type: 'boolean' },
      json: { type: 'boolean' },
      cache: { type: 'string' },
      'no-cache': { type: 'boolean' },
      threads: { type: 'string' },
      shard: { type: 'string' },
    },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const { values } = read;
  const cases = read.positionals[0] ?? '.';
  const threads = threadsFor(values.threads, 'build', terminal);
  if (threads === null) return 2;
  compileLate();
  const common = {
    cases,
    strict: values.strict ?? false,
    environment: process.env,
    ...(threads !== undefined && { threads }),
  };
  if (values.shard !== undefined) {
    const share = shareOf(values.shard);
    if (share && values.out !== undefined) {
      return showShard(
        await buildShard({ ...common, share, into: values.out }, diskFor(terminal)),
        { share, into: values.out },
        terminal,
      );
    }
    terminal.err(
      share
        ? 'thrice build: --shard needs a folder of its own, named by --out.'
        : `thrice build: --shard "${values.shard}" is not a share such as 2/4.`,
    );
    return 2;
  }
  const out = values.out ?? 'out';
  const report = await build(
    { ...common, out, cache: values['no-cache'] ? null : (values.cache ?? storeBeside(out)) },
    diskFor(terminal),
  );
  return showBuild(report, out, terminal, values.json);
};

/** `2/4`, counted from 1 as people count; null for anything else. */
function shareOf(written: string): Share | null {
  const [, first = '', second = ''] = /^(\d{1,6})\/(\d{1,6})$/.exec(written) ?? [];
  const [place, of] = [Number(first), Number(second)];
  return place >= 1 && place <= of ? { index: place - 1, of } : null;
}

function showShard(
  report: Outcome<ShardReport>,
  { share, into }: { readonly share: Share; readonly into: string },
  terminal: Terminal,
): number {
  if (!report.ok) return showProblems(report.problems, terminal);
  endProgress(terminal);
  const { built, failed, undecided, warnings } = report.value;
  terminal.out(
    `Share ${share.index + 1} of ${share.of}: ${counted(built.length)} made in ${resolve(into)}.`,
  );
  terminal.out('Not yet to be handed out: "thrice merge" joins the shares.');
  showWarnings(warnings, terminal);
  const problems = [...undecided, ...failed].flatMap((one) => one.problems);
  return problems.length === 0 ? 0 : showProblems(problems, terminal);
}
