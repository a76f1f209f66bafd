import { resolve } from 'node:path';
import { type BuildReport, build } from '../publish/build.js';
import { storeBeside } from '../publish/store/store.js';
import { type Command, diskFor, readWords } from './command.js';
import { endProgress, showProblems, showWarnings } from './terminal.js';

export const buildCommand: Command = async (words, terminal) => {
  const read = readWords(
    'build',
    words,
    {
      out: { type: 'string' },
      strict: { type: 'boolean' },
      cache: { type: 'string' },
      'no-cache': { type: 'boolean' },
      threads: { type: 'string' },
    },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const out = read.values.out ?? 'out';
  const threads = threadsFor(read.values.threads);
  if (threads === null) {
    terminal.err(
      `thrice build: --threads "${read.values.threads}" is not a whole number from 0 to ${MOST_THREADS}.`,
    );
    return 2;
  }
  const report = await build(
    {
      cases: read.positionals[0] ?? '.',
      out,
      strict: read.values.strict ?? false,
      environment: process.env,
      cache: read.values['no-cache'] ? null : (read.values.cache ?? storeBeside(out)),
      ...(threads !== undefined && { threads }),
    },
    diskFor(terminal),
  );
  if (!report.ok) return showProblems(report.problems, terminal);
  endProgress(terminal);
  const { built, failed, kept, warnings, gone, groups, readings, calendarsAt, site } = report.value;
  const { undecided, replaced } = report.value;
  terminal.out(
    `Built ${built.length} ${built.length === 1 ? 'case' : 'cases'}: ${built.join(', ')}.`,
  );
  terminal.out(`For the clinic  ${resolve(out, 'private', 'index.html')}`);
  terminal.out(`To publish      ${resolve(out, 'public', 'index.html')}`);
  if (calendarsAt !== null) {
    terminal.out(`To put online   ${resolve(out, 'calendars')} as ${calendarsAt}`);
  }
  if (site.at !== null) terminal.out(`To publish at   ${site.at}`);
  for (const line of missingForMachines(site)) terminal.out(line);
  for (const { summary } of readings) terminal.out(summary);
  if (groups.smallest !== null) {
    terminal.out(
      `Smallest group  ${groups.smallest} of the published cases (at least ${groups.least} asked for)`,
    );
  }
  for (const { name, what } of groups.reduced) terminal.out(`Small group     ${name}: ${what}`);
  for (const [name, count] of replaced) {
    terminal.out(`Reworded        ${name}: ${count} ${count === 1 ? 'name' : 'names'} of the case`);
  }
  for (const { page, why } of gone) terminal.out(`No longer public  ${page}: ${why}`);
  showWarnings(warnings, terminal);
  if (undecided.length > 0) {
    terminal.err(
      `Kept out of public: ${undecided.map(({ name }) => name).join(', ')}. Their discharge sheets were made.`,
    );
  }
  const problems = [...undecided, ...failed].flatMap((one) => one.problems);
  if (failed.length === 0) return problems.length === 0 ? 0 : showProblems(problems, terminal);
  terminal.err(
    `Left out: ${failed.map(({ name }) => name).join(', ')}. Nothing of them is public until they are mended.`,
  );
  if (kept.length > 0) {
    terminal.err(
      `Their last discharge sheets were kept (${kept.join(', ')}); they may be out of date.`,
    );
  }
  return showProblems(problems, terminal);
};

/** More would only wait for each other. Not a clinical number. */
const MOST_THREADS = 256;

/** How many threads were asked for; undefined where the build decides, null for what is no number. */
function threadsFor(asked: string | undefined): number | undefined | null {
  if (asked === undefined) return undefined;
  return /^\d{1,3}$/.test(asked) && Number(asked) <= MOST_THREADS ? Number(asked) : null;
}

/** What the public tree lacks because the clinic has not said where it stands. */
function missingForMachines({ at, issued }: BuildReport['site']): string[] {
  if (at === null) {
    return [
      'No feed, no site map: they need whole addresses, and clinic.yaml has no "site: { at: … }".',
    ];
  }
  return issued === null
    ? [
        'No feed: its entries need a day, and neither "issued" under "site" nor SOURCE_DATE_EPOCH gives one.',
      ]
    : [];
}
