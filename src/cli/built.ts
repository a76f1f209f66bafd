import { resolve } from 'node:path';
import type { BuildReport } from '../publish/build.js';
import type { Outcome } from '../record/problem.js';
import { problemsJson } from './problem-json.js';
import { endProgress, showProblems, showWarnings, type Terminal } from './terminal.js';

export const counted = (cases: number): string => `${cases} ${cases === 1 ? 'case' : 'cases'}`;

/** More names than this are counted: nobody reads a thousand. Not a clinical number. */
const MOST_NAMED = 40;

/** Shows what became of a build, and gives the exit code for it. */
export function showBuild(
  report: Outcome<BuildReport>,
  out: string,
  terminal: Terminal,
  json = false,
): number {
  if (!report.ok) {
    if (!json) return showProblems(report.problems, terminal);
    endProgress(terminal);
    terminal.out(problemsJson(report.problems));
    return 1;
  }
  endProgress(terminal);
  const { built, fresh, failed, kept, warnings, gone, groups, readings } = report.value;
  const { undecided, replaced, calendarsAt, site } = report.value;
  const problems = [...undecided, ...failed].flatMap((one) => one.problems);
  if (json) {
    terminal.out(problemsJson(problems, warnings));
    return problems.length === 0 ? 0 : 1;
  }
  terminal.out(
    built.length > MOST_NAMED
      ? `Built ${counted(built.length)}.`
      : `Built ${counted(built.length)}: ${built.join(', ')}.`,
  );
  terminal.out(`Printed anew    ${fresh} of ${built.length}`);
  terminal.out(`For the clinic  ${resolve(out, 'private', 'index.html')}`);
  terminal.out(`To publish      ${resolve(out, 'public', 'index.html')}`);
  if (calendarsAt !== null) {
    terminal.out(`To put online   ${resolve(out, 'calendars')} as ${calendarsAt}`);
  }
  if (site.at !== null) terminal.out(`To publish at   ${site.at}`);
  for (const line of missingForMachines(site)) terminal.out(line);
  if (readings.length <= MOST_NAMED) {
    for (const { summary } of readings) terminal.out(summary);
  }
  if (groups.smallest !== null) {
    terminal.out(
      `Smallest group  ${groups.smallest} of the published cases (at least ${groups.least} asked for)`,
    );
    for (const { group, what } of groups.alike.slice(0, MOST_NAMED)) {
      terminal.out(`Alike           ${group}: ${what}`);
    }
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
