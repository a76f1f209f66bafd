import { resolve } from 'node:path';
import { type BuildReport, build } from '../publish/build.js';
import { type Command, diskFor, readWords } from './command.js';
import { problemsJson } from './problem-json.js';
import { endProgress, showProblems, showWarnings } from './terminal.js';

export const buildCommand: Command = async (words, terminal) => {
  const read = readWords(
    'build',
    words,
    { out: { type: 'string' }, strict: { type: 'boolean' }, json: { type: 'boolean' } },
    { least: 0, most: 1 },
    terminal,
  );
  if (!read) return 2;
  const out = read.values.out ?? 'out';
  const report = await build(
    {
      cases: read.positionals[0] ?? '.',
      out,
      strict: read.values.strict ?? false,
      environment: process.env,
    },
    diskFor(terminal),
  );
  endProgress(terminal);
  const { json = false } = read.values;
  if (!report.ok) {
    if (!json) return showProblems(report.problems, terminal);
    terminal.out(problemsJson(report.problems));
    return 1;
  }
  const { built, failed, kept, warnings, gone, groups, readings, calendarsAt, site } = report.value;
  const { undecided, replaced } = report.value;
  const problems = [...undecided, ...failed].flatMap((one) => one.problems);
  if (json) {
    terminal.out(problemsJson(problems, warnings));
    return problems.length === 0 ? 0 : 1;
  }
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
